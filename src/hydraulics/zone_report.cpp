#include "hydraulics/zone_report.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "hydraulics/row_length.h"
#include "hydraulics/verdict.h"
#include "hydraulics/worst_path.h"

namespace teetally::hydraulics {
namespace {

// The published limit is one for mains; rows and feeders end in outlets that never slam shut.
double fastest(const Garden& garden, const ZoneFlow& flow, const std::vector<double>& insides) {
  double most = 0;
  for (std::size_t leg = 0; leg < insides.size(); ++leg) {
    const LegRole role = garden.legs[leg].role;
    if (role == LegRole::row || role == LegRole::tape || role == LegRole::feeder) continue;
    most = std::max(most, velocity(insides[leg], leg_flow(flow, static_cast<int>(leg))));
  }
  return most;
}

// The tap keeps the wanted pressure up to some flow, and the margin up to another.
double most_flow(const Garden& garden, const ZoneFlow& flow, const ZoneHydraulics& zone, const Settings& settings) {
  const Supply supply = supply_of(garden, settings);
  if (zone.available_m3_per_s <= 0 || flow.zone.head < 0) return 0;
  if (supply.droop() <= 0) return zone.available_m3_per_s;
  const double spare = at_rest_head(supply, flow, settings) - flow.wanted_head;
  return spare <= 0 ? 0 : std::min(zone.available_m3_per_s, std::sqrt(spare / supply.droop()));
}

void report_outlets(ZoneHydraulics& zone, const ZoneFlow& flow, double pa_per_m) {
  const Network& network = flow.zone.network;
  for (std::size_t i = 0; i < network.outlets.size() && !flow.solution.heads.empty(); ++i) {
    const int node = network.outlets[i].node;
    const double pa = (flow.solution.heads[node] - network.nodes[node].elevation) * pa_per_m;
    zone.lowest_pa = i == 0 ? pa : std::min(zone.lowest_pa, pa);
    zone.highest_pa = i == 0 ? pa : std::max(zone.highest_pa, pa);
  }
}

// Where a row starts and how it lies: the longest that passes depends on nothing else.
class RowLengths {
 public:
  explicit RowLengths(const Settings& settings) : settings_(settings) {}

  Length longest(const RowKind& row, double inlet_head) {
    // Half metres of head, rounded down, so that rows alike are computed once and the answer is on the safe side.
    const double head = std::floor(inlet_head * 2) / 2;
    const auto key = std::tuple(row.law.rated, row.law.rated_at, row.law.exponent, row.law.compensating, row.law.least,
                                row.spacing, row.inside, std::round(row.climb * 1000), head);
    const auto [known, fresh] = known_.try_emplace(key, 0);
    if (fresh) known->second = most_outlets(row, head, settings_);
    return {static_cast<std::int64_t>(std::llround(known->second * row.spacing * 1e4))};
  }

 private:
  const Settings& settings_;
  std::map<std::tuple<double, double, double, bool, double, double, double, double, double>, int> known_;
};

// Legs of a run in the order of its outlets; a row is one leg, or several one after another.
struct RowPlace {
  int first_leg = -1, last_leg = -1;
  Length length;
};

std::map<int, RowPlace> places_of_rows(const Garden& garden) {
  std::map<int, RowPlace> places;
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    const int run = garden.legs[leg].run;
    if (run < 0 || !garden.runs[run].emitters) continue;
    RowPlace& place = places[run];
    if (place.first_leg < 0) place.first_leg = static_cast<int>(leg);
    place.last_leg = static_cast<int>(leg);
    place.length += garden.legs[leg].length;
  }
  return places;
}

}  // namespace

ZoneHydraulics zone_report(const Garden& garden, int zone, const ZoneFlow& flow, const std::vector<double>& insides,
                           const Settings& settings, UnitSystem units) {
  const double pa_per_m = settings.water.pa_per_m();
  ZoneHydraulics out;
  out.zone = zone;
  out.demand_m3_per_s = flow.demand;
  out.rated_m3_per_s = flow.rated;
  out.tested_m3_per_s = garden.source.flow ? in_m3_per_s(*garden.source.flow) : 0;
  out.available_m3_per_s = out.tested_m3_per_s * (1 - settings.margin);
  out.start_pa = flow.start_head * pa_per_m;
  out.supply_limits = flow.supply_limits;
  out.least_part = flow.evenness.least;
  out.most_part = flow.evenness.most;
  out.variation = flow.evenness.variation;
  if (flow.evenness.most > 0)
    out.uniformity_percent = emission_uniformity(flow.least_over_mean, settings.emitter_cv, 1);
  out.uniformity_class = uniformity_class(out.uniformity_percent);
  out.fastest_m_per_s = fastest(garden, flow, insides);
  out.most_m3_per_s = most_flow(garden, flow, out, settings);
  out.tape = flow.tape;
  out.regulator.pa = static_cast<std::int64_t>(std::llround(flow.wanted_head * pa_per_m));
  out.regulator_why = flow.regulator.words(settings, units);
  report_outlets(out, flow, pa_per_m);
  out.worst_path = worst_path(garden, flow, settings);
  judge(out, flow, garden, settings, units);
  return out;
}

std::vector<RowHydraulics> row_reports(const Garden& garden, const ZoneFlow& flow, const std::vector<double>& insides,
                                       const Settings& settings) {
  std::vector<RowHydraulics> rows;
  RowLengths lengths(settings);
  const std::map<int, RowPlace> places = places_of_rows(garden);
  const Network& network = flow.zone.network;
  for (std::size_t i = 0; i < flow.zone.spots.size();) {
    const int run = flow.zone.spots[i].run;
    if (run < 0) {
      ++i;
      continue;
    }
    RowHydraulics row;
    row.run = run;
    row.first_m3_per_s = flow.solution.outlet_flows[i];
    const Outlet& law = network.outlets[i].law;
    std::vector<Share> shares;
    for (; i < flow.zone.spots.size() && flow.zone.spots[i].run == run; ++i) {
      ++row.outlets;
      row.last_m3_per_s = flow.solution.outlet_flows[i];
      row.flow_m3_per_s += row.last_m3_per_s;
      shares.push_back(flow.shares[i]);
    }
    row.variation = evenness_of(shares).variation;
    const RowPlace& place = places.at(run);
    const Leg &first = garden.legs[place.first_leg], &last = garden.legs[place.last_leg];
    const int inlet = flow.zone.node_of[first.from];
    const double head = flow.solution.heads[inlet] - network.nodes[inlet].elevation;
    row.inlet_pa = head * settings.water.pa_per_m();
    row.length = place.length;
    const double rise = in_metres(garden.nodes[last.to].at.up) - in_metres(garden.nodes[first.from].at.up);
    const double climb = place.length.tenths_mm > 0 ? rise / in_metres(place.length) : 0;
    row.longest_even =
        lengths.longest({law, in_metres(garden.runs[run].emitter_spacing), insides[place.first_leg], climb}, head);
    rows.push_back(row);
  }
  return rows;
}

}  // namespace teetally::hydraulics
