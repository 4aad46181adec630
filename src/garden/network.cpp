#include "garden/network.h"

#include <fmt/format.h>

#include <algorithm>
#include <queue>

#include "garden/joining.h"

namespace teetally::garden {

namespace {

void add_legs(const Joints& joints, Garden& garden) {
  for (const JointedPath& path : joints.paths) {
    const Run& run = garden.runs[static_cast<std::size_t>(path.run)];
    for (std::size_t i = 0; i + 1 < path.at.size(); ++i) {
      if (path.joint[i] == path.joint[i + 1]) continue;
      Leg leg;
      leg.from = path.joint[i];
      leg.to = path.joint[i + 1];
      leg.length = distance(joints.at[static_cast<std::size_t>(leg.from)], joints.at[static_cast<std::size_t>(leg.to)]);
      leg.role = path.roles[i];
      leg.size = run.size;
      leg.element = run.element;
      leg.run = path.run;
      leg.place = path.places[i];
      garden.legs.push_back(std::move(leg));
    }
    if (path.outlet < 0) continue;
    garden.devices[static_cast<std::size_t>(path.outlet)].node = path.joint.back();
    garden.nodes[static_cast<std::size_t>(path.joint.back())].device = path.outlet;
  }
}

// "trunk at 12 ft", "end of trunk": by the earliest run that passes the node.
void label_nodes(const Joints& joints, Garden& garden) {
  for (const JointedPath& path : joints.paths) {
    const std::string& name = garden.runs[static_cast<std::size_t>(path.run)].name;
    for (std::size_t i = 0; i < path.joint.size(); ++i) {
      std::string& label = garden.nodes[static_cast<std::size_t>(path.joint[i])].label;
      if (!label.empty()) continue;
      if (i == 0) {
        label = "start of " + name;
      } else if (i + 1 == path.joint.size()) {
        label = "end of " + name;
      } else {
        label = fmt::format("{} at {}", name, to_text(path.along[i], garden.units));
      }
    }
  }
}

void turn_away_from(const Reach& reach, Garden& garden) {
  for (Leg& leg : garden.legs) {
    const auto from = static_cast<std::size_t>(leg.from), to = static_cast<std::size_t>(leg.to);
    if (reach.reached[from] && reach.reached[to] && reach.away[to] < reach.away[from]) std::swap(leg.from, leg.to);
  }
}

}  // namespace

int other_end(const Leg& leg, int node) { return leg.from == node ? leg.to : leg.from; }

std::vector<std::vector<int>> legs_at_nodes(const Garden& garden) {
  std::vector<std::vector<int>> at(garden.nodes.size());
  for (std::size_t i = 0; i < garden.legs.size(); ++i) {
    at[static_cast<std::size_t>(garden.legs[i].from)].push_back(static_cast<int>(i));
    at[static_cast<std::size_t>(garden.legs[i].to)].push_back(static_cast<int>(i));
  }
  return at;
}

Reach reach_from(const Garden& garden, int source) {
  const std::vector<std::vector<int>> legs = legs_at_nodes(garden);
  Reach reach{std::vector<Length>(garden.nodes.size()), std::vector<int>(garden.nodes.size(), -1),
              std::vector<bool>(garden.nodes.size(), false)};
  using Entry = std::pair<std::int64_t, int>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
  std::vector<bool> settled(garden.nodes.size(), false);
  reach.reached[static_cast<std::size_t>(source)] = true;
  queue.emplace(0, source);
  while (!queue.empty()) {
    const auto [away, node] = queue.top();
    queue.pop();
    if (settled[static_cast<std::size_t>(node)]) continue;
    settled[static_cast<std::size_t>(node)] = true;
    for (const int leg : legs[static_cast<std::size_t>(node)]) {
      const Leg& way = garden.legs[static_cast<std::size_t>(leg)];
      const auto next = static_cast<std::size_t>(other_end(way, node));
      const Length there{away + way.length.tenths_mm};
      if (settled[next] || (reach.reached[next] && reach.away[next] <= there)) continue;
      reach.reached[next] = true;
      reach.away[next] = there;
      reach.by_leg[next] = leg;
      queue.emplace(there.tenths_mm, static_cast<int>(next));
    }
  }
  return reach;
}

int build_network(const Draft& draft, Garden& garden, const Practice& practice) {
  const SiteSource& tap = garden.source;
  const Joints joints = join_paths(draft.paths, Point{tap.east, tap.north, tap.up}, practice.joining_tolerance.value);
  for (const Point& at : joints.at) {
    Node node;
    node.at = at;
    garden.nodes.push_back(std::move(node));
  }
  garden.nodes[static_cast<std::size_t>(joints.source)].label = tap.name;
  add_legs(joints, garden);
  label_nodes(joints, garden);
  turn_away_from(reach_from(garden, joints.source), garden);
  return joints.source;
}

int insert_device(Garden& garden, int leg, Length from_start, Device device) {
  Leg& before = garden.legs[static_cast<std::size_t>(leg)];
  const Point start = garden.nodes[static_cast<std::size_t>(before.from)].at;
  const Point end = garden.nodes[static_cast<std::size_t>(before.to)].at;
  const int node = static_cast<int>(garden.nodes.size());
  Node middle;
  middle.at = toward(start, end, from_start);
  middle.label = device.part.kind + " of " + garden.elements[static_cast<std::size_t>(device.element)].name;
  middle.device = static_cast<int>(garden.devices.size());
  Leg after = before;
  before.to = node;
  before.length = distance(start, middle.at);
  after.from = node;
  after.length = after.length - before.length;
  device.node = node;
  garden.nodes.push_back(std::move(middle));
  garden.devices.push_back(std::move(device));
  garden.legs.push_back(std::move(after));
  return node;
}

void number_systems(Garden& garden, int source) {
  const std::vector<std::vector<int>> legs = legs_at_nodes(garden);
  garden.system_of_leg.assign(garden.legs.size(), -1);
  int systems = 0;
  for (std::size_t first = 0; first < garden.legs.size(); ++first) {
    if (garden.system_of_leg[first] >= 0) continue;
    std::vector<int> waiting{static_cast<int>(first)};
    garden.system_of_leg[first] = systems;
    while (!waiting.empty()) {
      const Leg& leg = garden.legs[static_cast<std::size_t>(waiting.back())];
      waiting.pop_back();
      for (const int node : {leg.from, leg.to}) {
        if (node == source) continue;
        for (const int next : legs[static_cast<std::size_t>(node)]) {
          if (garden.system_of_leg[static_cast<std::size_t>(next)] >= 0) continue;
          garden.system_of_leg[static_cast<std::size_t>(next)] = systems;
          waiting.push_back(next);
        }
      }
    }
    ++systems;
  }
}

}  // namespace teetally::garden
