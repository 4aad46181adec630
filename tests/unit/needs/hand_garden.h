#pragma once
// A small sized garden put together by hand, for tests of the takeoff that need no layout: nodes, runs and legs
// in the order in which they are added, one piece for each leg.
#include <string>
#include <vector>

#include "teetally/needs/take_off.h"

namespace teetally {

class HandGarden {
 public:
  HandGarden() {
    sized.garden.name = "by hand";
    sized.garden.source.thread = "3/4 in hose";
    zone("");
    sized.garden.zones[0].head_node = node(0, 0, 0, "tap");
  }

  SizedGarden sized;

  int zone(const std::string& name, Flow demand = {}, Pressure regulator = {}) {
    Zone zone;
    zone.name = name;
    sized.garden.zones.push_back(zone);
    ZoneHydraulics hydraulics;
    hydraulics.zone = static_cast<int>(sized.zones.size());
    hydraulics.demand_m3_per_s = in_m3_per_s(demand);
    hydraulics.regulator = regulator;
    sized.zones.push_back(hydraulics);
    return hydraulics.zone;
  }

  int node(int east_ft, int north_ft, int up_ft, const std::string& label = "") {
    Node node;
    node.at = {feet(east_ft), feet(north_ft), feet(up_ft)};
    node.label = label;
    sized.garden.nodes.push_back(node);
    return static_cast<int>(sized.garden.nodes.size()) - 1;
  }

  int element(const std::string& name, const std::string& kind, int zone = 0) {
    Element element;
    element.name = name;
    element.kind = kind;
    element.zone = zone;
    sized.garden.elements.push_back(element);
    const int index = static_cast<int>(sized.garden.elements.size()) - 1;
    sized.garden.zones[static_cast<std::size_t>(zone)].elements.push_back(index);
    return index;
  }

  int run(const std::string& name, LegRole role, const std::string& size, int element) {
    Run run;
    run.name = name;
    run.role = role;
    run.size = size;
    run.element = element;
    run.tubing.kind = role == LegRole::row      ? "emitter line"
                      : role == LegRole::tape   ? "drip tape"
                      : role == LegRole::feeder ? "feeder tubing"
                                                : "supply tubing";
    sized.garden.runs.push_back(run);
    return static_cast<int>(sized.garden.runs.size()) - 1;
  }

  // Legs of all runs are one connected system unless told otherwise.
  int leg(int from, int to, int run, Length length, int system = 0) {
    const Run& of = sized.garden.runs[static_cast<std::size_t>(run)];
    Leg leg;
    leg.from = from;
    leg.to = to;
    leg.length = length;
    leg.role = of.role;
    leg.size = of.size;
    leg.element = of.element;
    leg.run = run;
    sized.garden.legs.push_back(leg);
    sized.garden.system_of_leg.push_back(system);
    const int index = static_cast<int>(sized.garden.legs.size()) - 1;
    sized.garden.pieces.push_back({length, run, {index}, of.name});
    return index;
  }

  void fitting(Joint joint, std::vector<int> legs, int element, const std::string& rule = "by hand") {
    Fitting fitting;
    fitting.joint = joint;
    fitting.legs = std::move(legs);
    fitting.element = element;
    fitting.rule = rule;
    sized.garden.fittings.push_back(fitting);
  }

  void device(const PartSpec& part, int node, int element, std::int64_t count = 1) {
    Device device;
    device.part = part;
    device.node = node;
    device.element = element;
    device.count = count;
    device.rule = "by hand";
    sized.garden.devices.push_back(device);
  }
};

// A practice without any allowance, so that a test states the one it is about.
inline Practice bare_practice() {
  Practice practice;
  const auto size = [&](const char* name, std::int64_t mils) {
    NominalSize nominal;
    nominal.name = name;
    nominal.inside = {mils * 254};
    practice.sizes.push_back(nominal);
  };
  size("1/4 in", 170);
  size("1/2 in", 600);
  size("3/4 in", 820);
  practice.filter_mesh_drip = {150, "test"};
  practice.filter_mesh_tape = {200, "test"};
  return practice;
}

inline const Need* find_need(const std::vector<Need>& needs, const std::string& part) {
  for (const Need& need : needs) {
    if (to_text(need.part, UnitSystem::us) == part) return &need;
  }
  return nullptr;
}

inline std::int64_t amount_of(const Takeoff& takeoff, const std::string& part) {
  const Need* need = find_need(takeoff.needs, part);
  return need == nullptr ? 0 : need->amount;
}

}  // namespace teetally
