#include "purchase/exact/finish.h"

#include <algorithm>
#include <cmath>

#include "purchase/exact/contest.h"
#include "purchase/exact/pick.h"

namespace teetally {
namespace {

constexpr double kFirstWindow = 16, kWidestWindow = 1e12;  // minor units
constexpr std::size_t kCrowd = 1'000;  // ways of one part: a glance at more takes longer than a good look at fewer
// What a glance does not go beyond: another leaf may have a plan that leaves less to look at here.
constexpr double kGlanceWindow = 64;  // minor units
constexpr std::size_t kGlanceWays = 30;
constexpr double kWorthRaising = 32;  // minor units between the bound and the best plan
constexpr double kEnoughRaised = 0.8;
constexpr double kMostOfRate = 0.9;  // of what goods cost
constexpr int kSteps = 3;
constexpr int kMostRaises = 3;  // at one window

SettledCounts settle(const ExactModel& model, const std::vector<int>& values, const Table& pressure,
                     const std::vector<bool>& watched) {
  SettledCounts settled;
  settled.model = &model;
  const auto columns = static_cast<std::ptrdiff_t>(model.columns.size());
  settled.counts.assign(values.begin(), values.begin() + columns);
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    const SupplierState& state = model.suppliers[s][values[columns + s]];
    settled.states.push_back(state);
    settled.pressure.push_back(state.used && state.from > 0 && watched[s] ? pressure[s] : 0);
    settled.slot.push_back(-1);
    if (!state.used || !watched[s]) continue;
    settled.slot.back() = static_cast<int>(settled.watched.size());
    settled.watched.push_back(static_cast<int>(s));
    settled.rounding += 2 * state.slack / model.measure.minor;
  }
  return settled;
}

// Steps that any order has at least, at the bound's prices.
double bound_of(const SettledCounts& settled, const std::vector<PartChoices>& parts) {
  const Measure& measure = settled.model->measure;
  const PartWay start = settled_start(settled);
  double value = start.linear;
  for (std::size_t z = 0; z < settled.watched.size(); ++z) {
    const int s = settled.watched[z];
    value += settled.pressure[s] * static_cast<double>(settled.states[s].from - start.goods[z]);
  }
  double bound = std::floor((value - kDust) * measure.minor) + measure.tie_down(start.tie);
  for (const PartChoices& part : parts) bound += part.least();
  return bound;
}

// Columns of one bundle share its limit, and a bundle that is asked for must be there.
bool keeps_bundle_limits(const ExactModel& model, const std::vector<int>& values) {
  const PurchaseProblem& problem = *model.problem;
  std::vector<std::int64_t> counts(problem.bundles.size(), 0);
  for (std::size_t c = 0; c < model.columns.size(); ++c) counts[model.columns[c].bundle] += values[c];
  for (std::size_t b = 0; b < counts.size(); ++b) {
    if (counts[b] > problem.bundles[b].most) return false;
  }
  const auto& wanted = problem.wanted_bundles;
  return !problem.bundle_wanted || std::any_of(wanted.begin(), wanted.end(), [&](int b) { return counts[b] > 0; });
}

Plan plan_of(const SettledCounts& settled, const std::vector<Part>& parts, const std::vector<int>& picked) {
  const ExactModel& model = *settled.model;
  Plan plan = empty_plan(*model.problem);
  plan.family = model.family;
  for (std::size_t c = 0; c < settled.counts.size(); ++c) {
    const BundleColumn& column = model.columns[c];
    BundleCount& line = plan.bundles[column.bundle];
    line.count += settled.counts[c];
    for (std::size_t p = 0; p < column.choice.size(); ++p) {
      if (column.choice[p] >= 0) line.changed[p][column.choice[p]] += settled.counts[c];
    }
  }
  for (std::size_t k = 0; k < parts.size(); ++k) {
    for (const Decision& decision : parts[k].ways[picked[k]].decisions) add_to(settled, decision, plan);
  }
  return plan;
}

// Suppliers that are not watched, but whose goods lie outside what their state allows.
void find_misjudged(const SettledCounts& settled, const Plan& plan, std::vector<int>& misjudged) {
  const std::vector<std::int64_t> goods = goods_of(*settled.model->problem, plan);
  for (std::size_t s = 0; s < goods.size(); ++s) {
    const SupplierState& state = settled.states[s];
    if (!state.used || settled.slot[s] >= 0) continue;
    if (goods[s] < state.from || goods[s] > state.to) misjudged.push_back(static_cast<int>(s));
  }
}

// One pass with a set of watched suppliers. The window grows from little to all that could beat the best plan, so
// that a good plan is known before many ways are listed; first at a glance, then with more and more effort. Prices that
// look better from the ways listed so far raise the bound, which leaves fewer ways to list.
class Pass {
 public:
  Pass(SettledCounts settled, const Worth& best, Effort effort)
      : settled_(std::move(settled)), best_(best), effort_(effort), minor_(settled_.model->measure.minor) {
    result_.complete = false;
  }

  Finished run() {
    parts_ = choices_of_parts(settled_);
    price(settled_, parts_);
    bound_ = bound_of(settled_, parts_);
    for (const Effort level : {Effort::glance, Effort::fair, Effort::full}) {
      if (level > effort_ || !widen(level)) break;
    }
    return result_;
  }

  // Suppliers that turned out to need watching.
  const std::vector<int>& misjudged() const { return misjudged_; }

 private:
  // Steps between the bound and what a better plan may have.
  double needed() const { return settled_.model->measure.reach(best_) - bound_; }

  // False when the pass is over: settled, or beyond what more effort could do.
  bool widen(Effort level) {
    double width = level == Effort::full ? kWidestWindow : std::max(kFirstWindow, 4 * (seen_ - bound_) / minor_);
    if (settled_.watched.empty()) width = 1;  // the cheapest way of each part is all that matters
    int raises = 0;
    while (width <= kWidestWindow && needed() >= 0) {
      const double window = std::min(width * minor_, needed());
      const Worth before = best_;
      if (!look(window, level)) return false;
      if (!done_ && effort_ == Effort::glance) return false;
      if (!done_ && level == Effort::glance && most_ways_ > kCrowd) return true;
      if (window < needed() && needed() > kWorthRaising * minor_ && raises < kMostRaises && raise()) {
        ++raises;
      } else if (window < needed() && effort_ == Effort::glance &&
                 (width >= kGlanceWindow || most_ways_ > kGlanceWays)) {
        return false;
      } else if (done_ || window < needed()) {
        width *= 4;
        raises = 0;
      } else if (best_ == before) {
        return true;
      }
    }
    result_.complete = needed() < 0;
    return !result_.complete;
  }

  // Looks through one window. False when the pass is over.
  bool look(double window, Effort level) {
    const std::optional<std::vector<Part>> parts = list_ways(settled_, parts_, window);
    if (!parts) return false;
    const Picked picked = pick_ways(settled_, *parts, best_, level);
    prices_ = picked.prices;
    if (!picked.ways.empty() && !keep(plan_of(settled_, *parts, picked.ways), picked.worth.cost)) return false;
    done_ = picked.complete;
    if (done_) seen_ = std::max(seen_, bound_ + window);
    bool all = settled_.watched.empty();
    if (!all) {
      all = std::all_of(parts->begin(), parts->end(), [](const Part& part) { return part.all; });
      for (const Part& part : *parts) most_ways_ = std::max(most_ways_, part.ways.size());
    }
    result_.complete = done_ && (all || window >= needed());
    return !result_.complete;
  }

  // Goes towards the prices that the ways suggest, as far as that raises the bound. False when that is hardly at all.
  bool raise() {
    const Table before = settled_.pressure;
    const double bound = bound_, was = needed();
    double step = 1;
    for (int i = 0; i < kSteps; ++i, step /= 4) {
      for (std::size_t z = 0; z < settled_.watched.size(); ++z) {
        const int s = settled_.watched[z];
        if (settled_.states[s].from == 0) continue;
        // No further than the node's own climb went where that leaves filler next to nothing to pay: it would come in
        // thousands of ways.
        const double most = std::max(before[s], kMostOfRate * settled_.states[s].rate);
        settled_.pressure[s] = std::min(before[s] + step * (prices_[z] - before[s]), most);
      }
      price(settled_, parts_);
      bound_ = bound_of(settled_, parts_);
      if (needed() < was * kEnoughRaised) return true;
    }
    settled_.pressure = before;
    bound_ = bound;
    price(settled_, parts_);
    return false;
  }

  // False when the plan costs more than its ways said: a threshold was missed that nobody watched.
  bool keep(const Plan& plan, std::int64_t said) {
    const std::optional<Rank> ranked = rank(*settled_.model->problem, plan);
    if (ranked && ranked->cost <= best_.cost && settled_.model->measure.worth(*ranked) < best_) {
      result_.plan = plan;
      best_ = result_.worth = settled_.model->measure.worth(*ranked);
    }
    if (ranked && ranked->cost <= said) return true;
    find_misjudged(settled_, plan, misjudged_);
    return false;
  }

  SettledCounts settled_;
  std::vector<PartChoices> parts_;
  Worth best_;
  Effort effort_;
  double minor_, bound_ = 0;
  double seen_ = -kNever;  // steps: no better plan has so few
  Prices prices_{};        // suggested
  std::size_t most_ways_ = 0;
  bool done_ = false;  // the last window holds nothing better
  std::vector<int> misjudged_;
  Finished result_;
};

}  // namespace

// Thresholds are watched only where the cheapest way misses them: first none, then the missed ones too.
Finished finish(const ExactModel& model, const std::vector<int>& values, const Table& pressure, Worth best,
                Effort effort, TimeLimit limit) {
  if (!keeps_bundle_limits(model, values)) return {};
  std::vector<bool> watched;
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    watched.push_back(model.suppliers[s][values[model.columns.size() + s]].slack > 0);
  }
  Finished result;
  for (;;) {
    SettledCounts settled = settle(model, values, pressure, watched);
    settled.limit = limit;
    if (settled.watched.size() > kMostWatched) return {false, result.plan, result.worth};
    Pass pass(std::move(settled), best, effort);
    const Finished finished = pass.run();
    if (finished.plan) {
      result = finished;
      best = finished.worth;
    }
    result.complete = finished.complete;
    if (finished.complete || pass.misjudged().empty()) return result;
    for (int s : pass.misjudged()) watched[s] = true;
  }
}

}  // namespace teetally
