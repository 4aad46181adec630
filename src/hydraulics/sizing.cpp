#include "hydraulics/sizing.h"

#include <algorithm>
#include <cmath>

#include "hydraulics/tubing.h"
#include "hydraulics/zone_flow.h"

namespace teetally::hydraulics {
namespace {

constexpr int kMostTrials = 40;

class Sizing {
 public:
  Sizing(Garden& garden, const Practice& practice, const Settings& settings)
      : garden_(garden),
        practice_(practice),
        settings_(settings),
        paths_(flow_paths(garden)),
        sizes_(sizes_to_choose(garden, practice)),
        choices_(garden.runs.size()),
        at_(garden.runs.size(), 0) {
    for (std::size_t run = 0; run < garden.runs.size(); ++run) choices_[run].sized = garden.runs[run].size.empty();
  }

  bool nothing_to_choose() const { return sizes_.empty(); }
  bool any_to_size() const {
    return std::any_of(choices_.begin(), choices_.end(), [](const SizeChoice& choice) { return choice.sized; });
  }

  std::vector<SizeChoice> run() {
    set_all(static_cast<int>(sizes_.size()) - 1);
    find_rated_flows();
    const bool can_pass = checked();
    set_all(0);
    by_rule();
    const std::vector<int> rule = at_;
    set_all(0);
    if (can_pass) enlarge_until_checked();
    const std::vector<int> computed = at_;
    for (std::size_t i = 0; i < choices_.size(); ++i) {
      if (!choices_[i].sized) continue;
      if (can_pass) choices_[i].by_computation = sizes_[computed[i]]->name;
      put(static_cast<int>(i), std::max(rule[i], can_pass ? computed[i] : 0));
    }
    keep_feeders_no_smaller();
    if (can_pass) enlarge_until_checked();
    return std::move(choices_);
  }

 private:
  void put(int run, int size) {
    at_[run] = size;
    set_size(garden_, paths_, run, sizes_[size]->name);
  }
  void set_all(int size) {
    for (std::size_t run = 0; run < choices_.size(); ++run) {
      if (choices_[run].sized) put(static_cast<int>(run), size);
    }
  }

  // Every outlet as a fixed withdrawal: on a tree the sum of what lies downstream, on a ring its true share.
  void find_rated_flows() {
    const auto insides = insides_of_legs(garden_, practice_);
    const auto losses = fitting_losses(garden_, settings_.barb_loss);
    for (std::size_t zone = 0; zone < garden_.zones.size(); ++zone) {
      ZoneNetwork network = network_of(garden_, static_cast<int>(zone), insides, losses, settings_);
      if (network.head < 0) continue;
      for (const NetworkOutlet& outlet : network.network.outlets)
        network.network.nodes[outlet.node].withdrawal += outlet.law.rated;
      network.network.outlets.clear();
      hold(network, settings_.drip_head);
      const Solution solution = solve(network.network);
      for (std::size_t leg = 0; leg < garden_.legs.size(); ++leg) {
        const auto [first, count] = network.links_of_leg[leg];
        if (garden_.legs[leg].run < 0) continue;
        double& most = choices_[garden_.legs[leg].run].rated_flow;
        for (int i = first; i < first + count; ++i) most = std::max(most, std::abs(solution.flows[i]));
      }
    }
  }

  bool passes_rule(int run) const {
    const NominalSize& size = *sizes_[at_[run]];
    const bool carries = size.most.nl_per_h <= 0 || choices_[run].rated_flow <= in_m3_per_s(size.most) * (1 + 1e-9);
    return carries && (size.longest.tenths_mm <= 0 || farthest(garden_, paths_, run) <= size.longest);
  }

  int least_of_fed(int run) const {
    int least = 0;
    for (std::size_t other = 0; other < choices_.size(); ++other) {
      if (paths_.feeder_of_run[other] == run && choices_[other].sized) least = std::max(least, at_[other]);
    }
    return least;
  }

  // From the far ends towards the head, so that what a run feeds is settled before it.
  void by_rule() {
    if (!settings_.rule_of_thumb) return;
    for (const int run : paths_.runs_upstream) {
      if (!choices_[run].sized) continue;
      put(run, least_of_fed(run));
      while (!passes_rule(run) && at_[run] + 1 < static_cast<int>(sizes_.size())) put(run, at_[run] + 1);
      if (passes_rule(run)) choices_[run].by_rule = sizes_[at_[run]]->name;
    }
  }

  void keep_feeders_no_smaller() {
    for (const int run : paths_.runs_upstream) {
      if (choices_[run].sized) put(run, std::max(at_[run], least_of_fed(run)));
    }
  }

  struct Trial {
    bool good = true;
    std::vector<double> loss_of_run;  // m, over all zones the largest
    std::vector<bool> too_fast;       // by run
  };

  Trial try_sizes() {
    Trial trial{true, std::vector<double>(choices_.size(), 0.0), std::vector<bool>(choices_.size(), false)};
    const auto insides = insides_of_legs(garden_, practice_);
    const auto losses = fitting_losses(garden_, settings_.barb_loss);
    for (std::size_t zone = 0; zone < garden_.zones.size(); ++zone) {
      const ZoneFlow flow = wanted_flow_of(garden_, static_cast<int>(zone), insides, losses, settings_);
      if (flow.zone.head < 0) continue;
      trial.good = trial.good && even_enough(flow);
      add_losses(flow, insides, trial);
    }
    return trial;
  }

  bool even_enough(const ZoneFlow& flow) const {
    if (flow.shares.empty()) return true;
    for (std::size_t i = 0; i < flow.shares.size(); ++i) {
      const Outlet& law = flow.zone.network.outlets[i].law;
      if (law.compensating && flow.shares[i].part < 1 - 1e-9) return false;
    }
    return flow.solution.converged && flow.evenness.least > 0 && flow.evenness.variation <= settings_.most_variation;
  }

  void add_losses(const ZoneFlow& flow, const std::vector<double>& insides, Trial& trial) const {
    std::vector<double> loss(choices_.size(), 0.0);
    for (std::size_t leg = 0; leg < garden_.legs.size(); ++leg) {
      const int run = garden_.legs[leg].run;
      const auto [first, count] = flow.zone.links_of_leg[leg];
      if (run < 0 || count == 0 || !choices_[run].sized) continue;
      for (int i = first; i < first + count; ++i) {
        loss[run] += std::abs(link_loss(settings_.law, flow.zone.network.links[i], flow.solution.flows[i]).head);
      }
      if (velocity(insides[leg], leg_flow(flow, static_cast<int>(leg))) > settings_.most_velocity) {
        trial.too_fast[run] = true;
        trial.good = false;
      }
    }
    for (std::size_t run = 0; run < loss.size(); ++run)
      trial.loss_of_run[run] = std::max(trial.loss_of_run[run], loss[run]);
  }

  bool checked() { return try_sizes().good; }

  // One size up for every run that is too fast; when none is, for the runs that lose most.
  void enlarge_until_checked() {
    for (int trials = 0; trials < kMostTrials; ++trials) {
      const Trial trial = try_sizes();
      if (trial.good || !enlarge(trial)) return;
      keep_feeders_no_smaller();
    }
  }

  bool can_grow(std::size_t run) const { return choices_[run].sized && at_[run] + 1 < static_cast<int>(sizes_.size()); }

  bool enlarge(const Trial& trial) {
    const bool fast = std::any_of(trial.too_fast.begin(), trial.too_fast.end(), [](bool b) { return b; });
    double largest = 0;
    for (std::size_t run = 0; run < choices_.size(); ++run) {
      if (can_grow(run)) largest = std::max(largest, trial.loss_of_run[run]);
    }
    bool grown = false;
    for (std::size_t run = 0; run < choices_.size(); ++run) {
      if (!can_grow(run)) continue;
      if (fast ? !trial.too_fast[run] : trial.loss_of_run[run] < 0.7 * largest) continue;
      put(static_cast<int>(run), at_[run] + 1);
      grown = true;
    }
    return grown;
  }

  Garden& garden_;
  const Practice& practice_;
  const Settings& settings_;
  FlowPaths paths_;
  std::vector<const NominalSize*> sizes_;
  std::vector<SizeChoice> choices_;
  std::vector<int> at_;  // index into sizes_, sized runs only
};

}  // namespace

std::vector<const NominalSize*> sizes_to_choose(const Garden& garden, const Practice& practice) {
  std::vector<const NominalSize*> sizes;
  for (const NominalSize& size : practice.sizes) {
    if (size.use == "supply" && size.series == garden.series) sizes.push_back(&size);
  }
  return sizes;
}

void set_size(Garden& garden, const FlowPaths& paths, int run, const std::string& size) {
  garden.runs[run].size = size;
  for (const int leg : paths.legs_of_run[run]) garden.legs[leg].size = size;
}

std::vector<SizeChoice> choose_sizes(Garden& garden, const Practice& practice, const Settings& settings,
                                     Diagnostics& diagnostics) {
  Sizing sizing(garden, practice, settings);
  if (!sizing.any_to_size()) return std::vector<SizeChoice>(garden.runs.size());
  if (sizing.nothing_to_choose()) {
    diagnostics
        .error("hydraulics/no-sizes", garden.source.place,
               "tubing must be sized, but the practice has no supply size of the " + quoted(garden.series) + " series")
        .help = "add sizes with 'use: supply' to the practice file, or state every line's size in the design";
    return std::vector<SizeChoice>(garden.runs.size());
  }
  return sizing.run();
}

}  // namespace teetally::hydraulics
