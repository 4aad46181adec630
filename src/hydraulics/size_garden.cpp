#include <algorithm>
#include <cmath>

#include "hydraulics/garden_checks.h"
#include "hydraulics/head_order.h"
#include "hydraulics/run_report.h"
#include "hydraulics/tubing.h"
#include "hydraulics/verdict.h"
#include "hydraulics/zone_report.h"

namespace teetally {
namespace hydraulics {
namespace {

// Flows and pressures of one zone into those of the garden. Zones run one at a time, so where several reach a leg or a
// node, the largest flow and the lowest pressure are the ones that matter.
void add_network(SizedGarden& sized, const ZoneFlow& flow, double pa_per_m, std::vector<bool>& known) {
  for (std::size_t leg = 0; leg < sized.garden.legs.size(); ++leg) {
    const double q = leg_flow(flow, static_cast<int>(leg));
    if (std::abs(q) > std::abs(sized.leg_flow_m3_per_s[leg])) sized.leg_flow_m3_per_s[leg] = q;
  }
  for (std::size_t node = 0; node < sized.garden.nodes.size(); ++node) {
    const int at = flow.zone.node_of[node];
    if (at < 0) continue;
    const double pa = (flow.solution.heads[at] - flow.zone.network.nodes[at].elevation) * pa_per_m;
    sized.node_pa[node] = known[node] ? std::min(sized.node_pa[node], pa) : pa;
    known[node] = true;
  }
}

void solve_zones(SizedGarden& sized, const Practice& practice, const Settings& settings, UnitSystem units,
                 Diagnostics& diagnostics) {
  const Garden& garden = sized.garden;
  sized.leg_flow_m3_per_s.assign(garden.legs.size(), 0.0);
  sized.node_pa.assign(garden.nodes.size(), 0.0);
  std::vector<bool> known(garden.nodes.size(), false);
  const std::vector<double> insides = insides_of_legs(garden, practice),
                            losses = fitting_losses(garden, settings.barb_loss);
  for (std::size_t i = 0; i < garden.zones.size(); ++i) {
    const int zone = static_cast<int>(i);
    const ZoneFlow flow = flow_of(garden, zone, insides, losses, settings);
    check_zone(garden, zone, flow, settings, units, diagnostics);
    sized.zones.push_back(zone_report(garden, zone, flow, insides, settings, units));
    if (flow.zone.head < 0) continue;
    add_network(sized, flow, settings.water.pa_per_m(), known);
    for (RowHydraulics& row : row_reports(garden, flow, insides, settings)) sized.rows.push_back(row);
  }
  std::sort(sized.rows.begin(), sized.rows.end(), [](const auto& a, const auto& b) { return a.run < b.run; });
}

// The worst verdict, and the words of the zones that have it.
void conclude(SizedGarden& sized) {
  if (sized.zones.size() == 1) {
    sized.verdict = sized.zones[0].verdict;
    sized.words = sized.zones[0].words;
    return;
  }
  sized.verdict = sized.zones.empty() ? Verdict::unknown : Verdict::works;
  for (const ZoneHydraulics& zone : sized.zones) sized.verdict = worse(sized.verdict, zone.verdict);
  const std::string start = to_text(sized.verdict) + ": ";
  sized.words = start;
  if (sized.zones.empty()) sized.words += "there is nothing to water";
  bool first = true;
  for (const ZoneHydraulics& zone : sized.zones) {
    if (zone.verdict != sized.verdict) continue;
    sized.words += (first ? "zone " : "; zone ") + quoted(sized.garden.zones[zone.zone].name) + " " +
                   zone.words.substr(start.size());
    first = false;
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
  check_settings(practice, diagnostics);
  check_head_order(sized.garden, units, diagnostics);
  check_zones_apart(sized.garden, diagnostics);
  const std::vector<SizeChoice> choices = choose_sizes(sized.garden, practice, settings, diagnostics);
  fit_out(sized.garden, practice);
  check_sizes(sized.garden, practice, diagnostics);
  solve_zones(sized, practice, settings, units, diagnostics);
  sized.runs = run_reports(sized, choices, insides_of_legs(sized.garden, practice));
  sized.limits = limits_of(practice, settings);
  sized.taken = figures_taken(sized.garden, practice, settings, units);
  conclude(sized);
  return sized;
}

}  // namespace teetally
