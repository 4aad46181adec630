#pragma once
// Gardens made by hand for the tests of this stage: a trunk, beds of emitter rows along it, single emitters. No
// fittings unless a test adds them.
#include <string>

#include "teetally/hydraulics.h"

namespace made {

using namespace teetally;

inline constexpr std::int64_t kGph = 3'785'411'784;  // nl/h

inline Pressure psi(double value) { return {static_cast<std::int64_t>(value * 6894.757)}; }

inline NominalSize size(std::string name, std::string use, int thousandths, int longest_ft, int most_gph) {
  NominalSize out;
  out.name = std::move(name), out.series = "inch", out.use = std::move(use);
  out.inside.tenths_um = thousandths * 254;
  out.longest = feet(longest_ft), out.most = {most_gph * kGph};
  return out;
}

inline Practice practice() {
  Practice practice;
  practice.sizes = {size("1/4 in", "small", 170, 30, 30), size("1/2 in", "supply", 600, 200, 200),
                    size("3/4 in", "supply", 820, 480, 480), size("1 in", "supply", 1049, 960, 960)};
  practice.flow_margin.value = {200'000};
  practice.regulator_drip.value = psi(25);
  practice.regulator_tape.value = psi(15);
  practice.use_rule_of_thumb.value = true;
  practice.water_celsius.value = 20;
  practice.most_velocity_m_per_s.value = 1.524;
  return practice;
}

inline EmitterLaw emitter(double gph, bool compensating = false) {
  EmitterLaw law;
  law.rated.nl_per_h = static_cast<std::int64_t>(gph * static_cast<double>(kGph));
  law.rated_at = psi(compensating ? 15 : 25);
  law.exponent = compensating ? 0 : 0.5;
  law.compensating = compensating;
  if (compensating) law.least = psi(10), law.most = psi(45);
  return law;
}

// Starts as a tap with one zone and nothing else; 55 psi at rest and 300 gph through the open tap.
struct Maker {
  Garden garden;

  Maker() {
    garden.name = "made by hand";
    garden.source.static_pressure = psi(55);
    garden.source.flow = Flow{300 * kGph};
    garden.nodes.push_back({{}, "tap", -1});
    Zone zone;
    zone.name = "all", zone.head_node = 0;
    garden.zones.push_back(zone);
  }

  int element(std::string name, int zone = 0) {
    Element element;
    element.name = std::move(name), element.kind = "bed", element.zone = zone;
    garden.elements.push_back(element);
    garden.zones[zone].elements.push_back(static_cast<int>(garden.elements.size()) - 1);
    return static_cast<int>(garden.elements.size()) - 1;
  }

  int run(std::string name, LegRole role, std::string nominal, int of_element) {
    Run run;
    run.name = std::move(name), run.role = role, run.size = nominal, run.size_given = !nominal.empty(),
    run.element = of_element;
    garden.runs.push_back(run);
    return static_cast<int>(garden.runs.size()) - 1;
  }

  int node(Length up = {}) {
    garden.nodes.push_back({{{}, {}, up}, "", -1});
    return static_cast<int>(garden.nodes.size()) - 1;
  }

  int leg(int from, int to, Length length, int of_run) {
    Leg leg;
    leg.from = from, leg.to = to, leg.length = length, leg.run = of_run;
    leg.role = garden.runs[of_run].role, leg.size = garden.runs[of_run].size, leg.element = garden.runs[of_run].element;
    garden.legs.push_back(leg);
    return static_cast<int>(garden.legs.size()) - 1;
  }

  // A run of one leg from a node to a new one, which it answers.
  int line(int from, Length length, std::string nominal, int of_element, std::string name = "line", Length up = {}) {
    const int to = node(up);
    leg(from, to, length, run(std::move(name), LegRole::supply, std::move(nominal), of_element));
    return to;
  }

  // An emitter row from a node; answers its run.
  int row(int from, Length length, Length spacing, const EmitterLaw& law, int of_element, std::string name = "row",
          LegRole role = LegRole::row) {
    const int of_run = run(std::move(name), role, "1/4 in", of_element);
    garden.runs[of_run].emitters = law;
    garden.runs[of_run].emitter_spacing = spacing;
    garden.runs[of_run].emitter_count = length.tenths_mm / spacing.tenths_mm;
    leg(from, node(garden.nodes[from].at.up), length, of_run);
    return of_run;
  }

  void outlet(int at, const EmitterLaw& law, int of_element, std::int64_t count = 1) {
    Device device;
    device.part.kind = "emitter", device.node = at, device.element = of_element, device.outlet = law,
    device.count = count;
    garden.devices.push_back(device);
  }
};

}  // namespace made
