// A Site becomes a Garden: drafts of all runs, one network, zones and devices, then fittings and pieces.
#include <fmt/format.h>

#include <set>

#include "garden/crossings.h"
#include "garden/draft.h"
#include "garden/joints.h"
#include "garden/network.h"
#include "garden/zones.h"

namespace teetally {

namespace garden {

namespace {

Draft draft_of(const Site& site, const Practice& practice, Diagnostics& diagnostics) {
  Draft draft;
  draft.garden.name = site.name;
  draft.garden.units = site.units;
  draft.garden.series = site.series;
  draft.garden.source = site.source;
  draft.garden.existing = site.existing;
  const Laying laying{site, practice, diagnostics, draft};
  draft_lines(laying);
  draft_beds(laying);
  draft_tape_rows(laying);
  draft_containers(laying);
  draft_sprays(laying);
  return draft;
}

void check_connected(const Garden& garden, const Reach& reach, Diagnostics& diagnostics) {
  std::set<int> told;
  for (const Leg& leg : garden.legs) {
    if (reach.reached[static_cast<std::size_t>(leg.from)] || !told.insert(leg.element).second) continue;
    const Element& element = garden.elements[static_cast<std::size_t>(leg.element)];
    const Point at = garden.nodes[static_cast<std::size_t>(leg.from)].at;
    diagnostics
        .error(
            "garden/not-connected", leg.place,
            fmt::format("{} gets no water: nothing joins it at [{}, {}, {}]", element.name,
                        to_text(at.east, garden.units), to_text(at.north, garden.units), to_text(at.up, garden.units)))
        .help = "let it start at the tap or on a line, at that line's height";
  }
}

void add_valves(const Draft& draft, Garden& garden, const Reach& reach, const Practice& practice,
                Diagnostics& diagnostics) {
  for (const int index : draft.valve_runs) {
    const Run& run = garden.runs[static_cast<std::size_t>(index)];
    const std::string& name = garden.elements[static_cast<std::size_t>(run.element)].name;
    const int leg = leg_for_device(garden, index, reach, practice.joining_tolerance.value * 2);
    if (leg < 0) {
      diagnostics
          .error("garden/no-room-for-valve", run.place,
                 fmt::format("no tubing leads to {} on which a shut-off valve could sit", name))
          .help = "feed it from a line that lies further away, or leave out 'valve'";
      continue;
    }
    Device device;
    device.part.kind = "shut-off valve";
    device.element = run.element;
    device.rule = "a valve of its own is asked for";
    device.existing = run.existing;
    device.place = run.place;
    const Length half{garden.legs[static_cast<std::size_t>(leg)].length.tenths_mm / 2};
    insert_device(garden, leg, std::min(practice.valve_distance.value, half), std::move(device));
  }
}

void check_joints(const Garden& garden, const Practice& practice, int source, Diagnostics& diagnostics) {
  const std::vector<std::vector<int>> legs = legs_at_nodes(garden);
  for (std::size_t node = 0; node < legs.size(); ++node) {
    const int index = static_cast<int>(node);
    if (index == source || legs[node].size() <= 4) continue;
    const int meeting = joint_at(garden, practice, index, legs[node], false).meeting;
    if (meeting <= 4) continue;
    diagnostics
        .error("garden/too-many-meet", garden.legs[static_cast<std::size_t>(legs[node].back())].place,
               fmt::format("{} lengths of tubing meet at {}; expected at most 4", meeting, garden.nodes[node].label))
        .help = "move some of them along by a hand's width";
  }
}

}  // namespace

}  // namespace garden

Garden lay_out(const Site& site, const Practice& practice, Diagnostics& diagnostics) {
  garden::Draft draft = garden::draft_of(site, practice, diagnostics);
  Garden result = draft.garden;
  if (result.runs.size() > garden::kMostRuns) {
    diagnostics.error("garden/too-large", site.place, fmt::format("more than {} runs of tubing", garden::kMostRuns))
        .help = "check sizes, spacings and counts";
    return result;
  }
  const int source = garden::build_network(draft, result, practice);
  const garden::Reach reach = garden::reach_from(result, source);
  // What could not be laid out is not joined either, and may lie on other tubing; that has been said.
  if (!diagnostics.has_errors()) {
    garden::check_connected(result, reach, diagnostics);
    garden::report_crossings(result, practice, diagnostics);
  }
  garden::assign_zones(site, result, source, practice, diagnostics);
  garden::add_valves(draft, result, reach, practice, diagnostics);
  garden::check_joints(result, practice, source, diagnostics);
  garden::number_systems(result, source);
  fit_out(result, practice);
  return result;
}

}  // namespace teetally
