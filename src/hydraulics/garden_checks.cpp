#include "hydraulics/garden_checks.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "hydraulics/wording.h"

namespace teetally::hydraulics {
namespace {

void check_regulator(const Garden& garden, const Settings& settings, UnitSystem units, Diagnostics& diagnostics) {
  const Pressure has = *garden.source.static_pressure;
  double wanted = 0;
  for (std::size_t zone = 0; zone < garden.zones.size(); ++zone) {
    const int at = static_cast<int>(zone);
    wanted = std::max(wanted, regulator_for(garden, at, has_tape(garden, at), settings).head);
  }
  const double wanted_pa = wanted * settings.water.pa_per_m();
  if (static_cast<double>(has.pa) >= wanted_pa) return;
  diagnostics
      .warning("hydraulics/regulator-above-supply", garden.source.place,
               "the tap has " + to_text(has, units) + " at rest, less than the " + pressure_text(wanted_pa, units) +
                   " the regulator is set to; it would only take pressure away")
      .help = "choose a lower regulator pressure in the practice file, or measure the static pressure again";
}

// The highest outlet that the start pressure cannot lift water to.
void check_height(const Garden& garden, const ZoneFlow& flow, const Settings& settings, UnitSystem units,
                  Diagnostics& diagnostics) {
  const Network& network = flow.zone.network;
  if (flow.start_head <= 0) return;
  const double start = flow.solution.heads[flow.zone.head];
  std::size_t highest = network.outlets.size();
  for (std::size_t i = 0; i < network.outlets.size(); ++i) {
    const double height = network.nodes[network.outlets[i].node].elevation;
    if (height <= start) continue;
    if (highest == network.outlets.size() || height > network.nodes[network.outlets[highest].node].elevation)
      highest = i;
  }
  if (highest == network.outlets.size()) return;
  const double rise = network.nodes[network.outlets[highest].node].elevation - network.nodes[flow.zone.head].elevation;
  const Element& element = garden.elements[flow.zone.spots[highest].element];
  diagnostics
      .warning("hydraulics/too-high", element.place,
               element.name + " stands " + to_text(Length{static_cast<std::int64_t>(rise * 1e4)}, units) +
                   " above where the tubing starts; " +
                   pressure_text(flow.start_head * settings.water.pa_per_m(), units) + " there lifts water " +
                   to_text(Length{static_cast<std::int64_t>(flow.start_head * 1e4)}, units))
      .help = "check the heights; water needs more pressure, or a lower place";
}

}  // namespace

void check_source(const Garden& garden, const Settings& settings, UnitSystem units, Diagnostics& diagnostics) {
  const SiteSource& source = garden.source;
  if (source.flow && source.flow->nl_per_h <= 0) {
    diagnostics
        .error("hydraulics/no-flow", source.place,
               "the tap gives " + to_text(*source.flow, units) + "; nothing can be watered")
        .help = "measure it: fill a bucket with the tap fully open, and time it";
  }
  if (!source.static_pressure) return;
  if (source.static_pressure->pa <= 0) {
    diagnostics
        .error("hydraulics/no-pressure", source.place,
               "the tap has " + to_text(*source.static_pressure, units) + "; a pressure above zero is expected")
        .help = "state the pressure that a gauge shows with the tap closed behind it";
    return;
  }
  check_regulator(garden, settings, units, diagnostics);
}

void check_zone(const Garden& garden, int zone, const ZoneFlow& flow, const Settings& settings, UnitSystem units,
                Diagnostics& diagnostics) {
  for (const int index : flow.zone.unreached) {
    const Element& element = garden.elements[index];
    diagnostics
        .error("hydraulics/not-joined", element.place, element.name + " gives water, but no tubing joins it to the tap")
        .help = "let its feed meet a line that starts at the tap";
  }
  if (flow.shares.empty()) {
    if (!flow.zone.unreached.empty()) return;
    diagnostics
        .warning("hydraulics/no-outlets", garden.zones[zone].place,
                 "nothing in zone " + quoted(garden.zones[zone].name) + " gives water")
        .help = "add a bed, containers, tape rows or sprays to it, or leave the zone out";
    return;
  }
  check_height(garden, flow, settings, units, diagnostics);
}

// Tubing is parted by zone valves and by the head. What is joined beyond them runs together, whatever zones it is in.
void check_zones_apart(const Garden& garden, Diagnostics& diagnostics) {
  std::vector<int> group(garden.nodes.size());
  std::iota(group.begin(), group.end(), 0);
  const auto root = [&](int node) {
    while (group[node] != node) node = group[node] = group[group[node]];
    return node;
  };
  std::vector<bool> parted(garden.nodes.size(), false);
  for (const Zone& zone : garden.zones) {
    if (zone.head_node >= 0) parted[zone.head_node] = true;
  }
  for (const Device& device : garden.devices) {
    if (device.part.kind == "zone valve" && device.node >= 0) parted[device.node] = true;
  }
  for (const Leg& leg : garden.legs) {
    if (!parted[leg.from] && !parted[leg.to]) group[root(leg.from)] = root(leg.to);
  }
  std::map<int, int> first;  // by group, the element that was met first
  std::set<std::pair<int, int>> told;
  const auto consider = [&](int node, int element) {
    if (node < 0 || element < 0 || parted[node]) return;
    const auto [known, fresh] = first.emplace(root(node), element);
    const int one = garden.elements[known->second].zone, other = garden.elements[element].zone;
    if (fresh || one == other || !told.insert(std::minmax(one, other)).second) return;
    Diagnostic& error = diagnostics.error("hydraulics/zones-joined", garden.elements[element].place,
                                          garden.elements[element].name + " is in zone " +
                                              quoted(garden.zones[other].name) + ", but tubing joins it to zone " +
                                              quoted(garden.zones[one].name) + ": whenever one runs, both run");
    error.help = "take out the tubing that joins them, or put both in one zone";
    error.notes.push_back({"joined to " + garden.elements[known->second].name, garden.elements[known->second].place});
  };
  for (const Leg& leg : garden.legs) {
    if (leg.run >= 0 && garden.runs[leg.run].emitters) consider(leg.to, garden.runs[leg.run].element);
  }
  for (const Device& device : garden.devices) {
    if (device.outlet) consider(device.node, device.element);
  }
}

}  // namespace teetally::hydraulics
