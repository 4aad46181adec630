#include "hydraulics/zone_flow.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>

namespace teetally::hydraulics {
namespace {

// Outlets of different make give different parts of their rated flow at one pressure; that is no unevenness, so each
// kind is compared with itself.
void measure_evenness(ZoneFlow& flow) {
  std::map<std::tuple<double, double, double, bool>, std::vector<Share>> kinds;
  for (std::size_t i = 0; i < flow.shares.size(); ++i) {
    const Outlet& law = flow.zone.network.outlets[i].law;
    const double each = law.rated / flow.zone.spots[i].count;
    kinds[{std::round(each * 1e15), law.rated_at, law.exponent, law.compensating}].push_back(flow.shares[i]);
  }
  flow.evenness = evenness_of(flow.shares);
  flow.evenness.variation = 0;
  flow.least_over_mean = 1;
  for (const auto& [kind, shares] : kinds) {
    const Evenness evenness = evenness_of(shares);
    flow.evenness.variation = std::max(flow.evenness.variation, evenness.variation);
    if (evenness.mean > 0) flow.least_over_mean = std::min(flow.least_over_mean, evenness.least / evenness.mean);
  }
}

void measure(ZoneFlow& flow) {
  const Network& network = flow.zone.network;
  flow.shares.clear();
  for (std::size_t i = 0; i < network.outlets.size(); ++i) {
    const double rated = network.outlets[i].law.rated;
    flow.shares.push_back({rated > 0 ? flow.solution.outlet_flows[i] / rated : 0, flow.zone.spots[i].count});
  }
  measure_evenness(flow);
  flow.start_head = flow.solution.heads[flow.zone.head] - network.nodes[flow.zone.head].elevation;
}

double total(const std::vector<double>& flows) { return std::accumulate(flows.begin(), flows.end(), 0.0); }

}  // namespace

Supply supply_of(const Garden& garden, const Settings& settings) {
  Supply supply;
  const SiteSource& source = garden.source;
  if (source.static_pressure)
    supply.static_head = static_cast<double>(source.static_pressure->pa) / settings.water.pa_per_m();
  if (source.flow) supply.tested = in_m3_per_s(*source.flow);
  supply.height = in_metres(source.up);
  return supply;
}

bool has_tape(const Garden& garden, int zone) {
  for (const Run& run : garden.runs) {
    if (run.role == LegRole::tape && run.element >= 0 && garden.elements[run.element].zone == zone) return true;
  }
  return false;
}

ZoneFlow wanted_flow_of(const Garden& garden, int zone, const std::vector<double>& insides,
                        const std::vector<double>& losses, const Settings& settings) {
  ZoneFlow flow;
  flow.zone = network_of(garden, zone, insides, losses, settings);
  flow.tape = has_tape(garden, zone);
  flow.regulator = regulator_for(garden, zone, flow.tape, settings);
  flow.wanted_head = flow.regulator.head;
  flow.head_losses = settings.backflow_loss + settings.filter_loss + (garden.source.timer ? settings.timer_loss : 0);
  for (const NetworkOutlet& outlet : flow.zone.network.outlets) flow.rated += outlet.law.rated;
  if (flow.zone.head < 0) return flow;
  hold(flow.zone, flow.wanted_head);
  flow.solution = solve(flow.zone.network);
  flow.demand = total(flow.solution.outlet_flows);
  measure(flow);
  return flow;
}

ZoneFlow flow_of(const Garden& garden, int zone, const std::vector<double>& insides, const std::vector<double>& losses,
                 const Settings& settings) {
  ZoneFlow flow = wanted_flow_of(garden, zone, insides, losses, settings);
  const Supply supply = supply_of(garden, settings);
  if (flow.zone.head < 0 || !supply.static_head) return flow;
  const double at_rest = at_rest_head(supply, flow, settings);
  const double left = at_rest - supply.droop() * flow.demand * flow.demand;
  if (left >= flow.wanted_head) return flow;
  flow.supply_limits = true;
  feed(flow.zone, std::max(at_rest, 0.0), supply.droop());
  flow.solution = solve(flow.zone.network);
  measure(flow);
  return flow;
}

// A regulator that has less than it needs passes on what it gets less the same difference.
double at_rest_head(const Supply& supply, const ZoneFlow& flow, const Settings& settings) {
  const double climb = flow.zone.network.nodes[flow.zone.head].elevation - supply.height;
  return *supply.static_head - climb - flow.head_losses - settings.regulator_needs;
}

double leg_flow(const ZoneFlow& flow, int leg) {
  const auto [first, count] = flow.zone.links_of_leg[leg];
  double most = 0;
  for (int i = first; i < first + count; ++i) {
    const double q = flow.solution.flows[i];
    if (std::abs(q) > std::abs(most)) most = q;
  }
  return most;
}

}  // namespace teetally::hydraulics
