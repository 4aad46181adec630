#include <algorithm>
#include <cmath>

#include "hydraulics/garden_checks.h"
#include "hydraulics/sizing.h"
#include "hydraulics/tubing.h"
#include "hydraulics/verdict.h"
#include "hydraulics/wording.h"
#include "hydraulics/zone_flow.h"

namespace teetally {
namespace hydraulics {
namespace {

// What all zones share while results are filled in.
struct Filling {
  SizedGarden& sized;
  const Settings& settings;
  const std::vector<double>& insides;
  UnitSystem units;
};

void fill_network(const Filling& fill, const ZoneFlow& flow) {
  SizedGarden& sized = fill.sized;
  for (std::size_t leg = 0; leg < sized.garden.legs.size(); ++leg) {
    const double q = leg_flow(flow, static_cast<int>(leg));
    if (std::abs(q) > std::abs(sized.leg_flow_m3_per_s[leg])) sized.leg_flow_m3_per_s[leg] = q;
  }
  for (std::size_t node = 0; node < sized.garden.nodes.size(); ++node) {
    const int at = flow.zone.node_of[node];
    if (at < 0) continue;
    const double pa =
        (flow.solution.heads[at] - flow.zone.network.nodes[at].elevation) * fill.settings.water.pa_per_m();
    // Where several zones reach a node, the lowest pressure is the one that matters.
    double& known = sized.node_pa[node];
    known = known == 0 ? pa : std::min(known, pa);
  }
}

void fill_rows(const Filling& fill, const ZoneFlow& flow) {
  std::vector<RowHydraulics>& rows = fill.sized.rows;
  std::vector<Share> shares;
  for (std::size_t i = 0; i < flow.zone.spots.size(); ++i) {
    const int run = flow.zone.spots[i].run;
    if (run < 0) continue;
    const double q = flow.solution.outlet_flows[i];
    if (rows.empty() || rows.back().run != run) {
      rows.push_back({run, 0, 0, 0, q, 0, 0});
      shares.clear();
    }
    RowHydraulics& row = rows.back();
    ++row.outlets;
    row.flow_m3_per_s += q;
    row.last_m3_per_s = q;
    shares.push_back(flow.shares[i]);
    row.variation = evenness_of(shares).variation;
  }
}

double fastest(const Filling& fill, const ZoneFlow& flow) {
  double most = 0;
  for (std::size_t leg = 0; leg < fill.insides.size(); ++leg) {
    most = std::max(most, velocity(fill.insides[leg], leg_flow(flow, static_cast<int>(leg))));
  }
  return most;
}

ZoneHydraulics fill_zone(const Filling& fill, int zone, const ZoneFlow& flow) {
  const Garden& garden = fill.sized.garden;
  const double pa_per_m = fill.settings.water.pa_per_m();
  ZoneHydraulics out;
  out.zone = zone;
  out.demand_m3_per_s = flow.demand;
  out.rated_m3_per_s = flow.rated;
  out.tested_m3_per_s = garden.source.flow ? in_m3_per_s(*garden.source.flow) : 0;
  out.available_m3_per_s = out.tested_m3_per_s * (1 - fill.settings.margin);
  out.start_pa = flow.start_head * pa_per_m;
  out.supply_limits = flow.supply_limits;
  out.least_part = flow.evenness.least;
  out.most_part = flow.evenness.most;
  out.variation = flow.evenness.variation;
  out.uniformity_percent = emission_uniformity(flow.evenness, fill.settings.emitter_cv, 1);
  out.tape = flow.tape;
  out.regulator.pa = static_cast<std::int64_t>(std::llround(flow.wanted_head * pa_per_m));
  const Network& network = flow.zone.network;
  for (std::size_t i = 0; i < network.outlets.size() && !flow.solution.heads.empty(); ++i) {
    const int node = network.outlets[i].node;
    const double pa = (flow.solution.heads[node] - network.nodes[node].elevation) * pa_per_m;
    out.lowest_pa = i == 0 ? pa : std::min(out.lowest_pa, pa);
    out.highest_pa = i == 0 ? pa : std::max(out.highest_pa, pa);
  }
  judge(out, flow, garden, fill.settings, fastest(fill, flow), fill.units);
  return out;
}

std::string why_this_size(const SizeChoice& choice, const std::string& size) {
  if (!choice.sized) return "the design states it";
  if (choice.by_rule.empty() && choice.by_computation.empty()) return "no size passes; the largest that was tried";
  if (choice.by_computation.empty()) return "the rule of thumb asks for it; no size passes the computed check";
  if (choice.by_rule.empty()) return "the smallest that passes the computed check; the rule of thumb passes none";
  if (choice.by_rule == choice.by_computation && size == choice.by_rule)
    return "the smallest that passes the rule of thumb and the computed check";
  if (size == choice.by_rule)
    return "the rule of thumb asks for it; by computation " + choice.by_computation + " would do";
  if (size == choice.by_computation)
    return "the computed check asks for it; by the rule of thumb " + choice.by_rule + " would do";
  return "no smaller than what it feeds; alone " + choice.by_computation + " would do";
}

void fill_runs(const Filling& fill, const std::vector<SizeChoice>& choices, const FlowPaths& paths) {
  const Garden& garden = fill.sized.garden;
  for (std::size_t run = 0; run < garden.runs.size(); ++run) {
    RunHydraulics out;
    out.run = static_cast<int>(run);
    for (const int leg : paths.legs_of_run[run]) {
      const double q = std::abs(fill.sized.leg_flow_m3_per_s[leg]);
      out.flow_m3_per_s = std::max(out.flow_m3_per_s, q);
      out.velocity_m_per_s = std::max(out.velocity_m_per_s, velocity(fill.insides[leg], q));
    }
    out.farthest = farthest(garden, paths, out.run);
    out.size = garden.runs[run].size;
    out.size_by_rule = choices[run].by_rule;
    out.size_by_computation = choices[run].by_computation;
    out.why = why_this_size(choices[run], out.size);
    fill.sized.runs.push_back(std::move(out));
  }
  for (RowHydraulics& row : fill.sized.rows) {
    if (!paths.legs_of_run[row.run].empty())
      row.inlet_pa = fill.sized.node_pa[garden.legs[paths.legs_of_run[row.run].front()].from];
  }
  std::sort(fill.sized.rows.begin(), fill.sized.rows.end(), [](const auto& a, const auto& b) { return a.run < b.run; });
}

void conclude(SizedGarden& sized) {
  if (sized.zones.empty()) {
    sized.words = "unknown: there is nothing to water";
    return;
  }
  sized.verdict = Verdict::works;
  for (const ZoneHydraulics& zone : sized.zones) {
    sized.verdict = worse(sized.verdict, zone.verdict);
    const std::string name = sized.zones.size() > 1 ? "zone " + quoted(sized.garden.zones[zone.zone].name) + ": " : "";
    sized.words += (sized.words.empty() ? "" : "\n") + name + zone.words;
  }
}

}  // namespace
}  // namespace hydraulics

SizedGarden size_garden(Garden garden, const Practice& practice, UnitSystem units, Diagnostics& diagnostics) {
  using namespace hydraulics;
  const Settings settings = settings_of(practice);
  SizedGarden sized;
  sized.garden = std::move(garden);
  check_source(sized.garden, settings, units, diagnostics);
  const std::vector<SizeChoice> choices = choose_sizes(sized.garden, practice, settings, diagnostics);
  fit_out(sized.garden, practice);
  check_sizes(sized.garden, practice, diagnostics);
  sized.leg_flow_m3_per_s.assign(sized.garden.legs.size(), 0.0);
  sized.node_pa.assign(sized.garden.nodes.size(), 0.0);
  const std::vector<double> insides = insides_of_legs(sized.garden, practice);
  const std::vector<double> losses = fitting_losses(sized.garden);
  const Filling fill{sized, settings, insides, units};
  for (std::size_t zone = 0; zone < sized.garden.zones.size(); ++zone) {
    const ZoneFlow flow = flow_of(sized.garden, static_cast<int>(zone), insides, losses, settings);
    check_zone(sized.garden, static_cast<int>(zone), flow, settings, units, diagnostics);
    if (flow.zone.head >= 0) {
      fill_network(fill, flow);
      fill_rows(fill, flow);
    }
    sized.zones.push_back(fill_zone(fill, static_cast<int>(zone), flow));
  }
  fill_runs(fill, choices, flow_paths(sized.garden));
  conclude(sized);
  return sized;
}

}  // namespace teetally
