#include "garden/crossings.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

#include "garden/geometry.h"

namespace teetally::garden {

namespace {

constexpr std::size_t kMostTold = 100;

struct Box {
  Length west, east, south, north;
};

Box box_of(const Garden& garden, const Leg& leg, Length margin) {
  const Point a = garden.nodes[static_cast<std::size_t>(leg.from)].at;
  const Point b = garden.nodes[static_cast<std::size_t>(leg.to)].at;
  return {std::min(a.east, b.east) - margin, std::max(a.east, b.east) + margin, std::min(a.north, b.north) - margin,
          std::max(a.north, b.north) + margin};
}

bool share_a_node(const Leg& a, const Leg& b) {
  return a.from == b.from || a.from == b.to || a.to == b.from || a.to == b.to;
}

struct Found {
  Point at;
  bool touches = false;
  Length height_between;
};

// A run's own corners lie close together; only a true crossing of itself is worth a word.
bool inside(Point p, Point a, Point b) { return !(p == a) && !(p == b); }

// Two legs that leave one node the same way lie on each other; feeders to plants in a line do so by intent.
std::optional<Found> overlap_of(const Garden& garden, const Leg& first, const Leg& second) {
  if (first.role == LegRole::feeder && second.role == LegRole::feeder) return std::nullopt;
  const int shared = first.from == second.from || first.from == second.to ? first.from : first.to;
  const auto at = [&](int node) { return garden.nodes[static_cast<std::size_t>(node)].at; };
  const Point a = at(first.from == shared ? first.to : first.from);
  const Point b = at(second.from == shared ? second.to : second.from);
  if (turn_degrees(a, at(shared), b) < 179.9) return std::nullopt;
  return Found{at(shared), true, Length{}};
}

std::optional<Found> crossing_of(const Garden& garden, const Leg& first, const Leg& second, const Practice& practice) {
  const Point a = garden.nodes[static_cast<std::size_t>(first.from)].at;
  const Point b = garden.nodes[static_cast<std::size_t>(first.to)].at;
  const Point c = garden.nodes[static_cast<std::size_t>(second.from)].at;
  const Point d = garden.nodes[static_cast<std::size_t>(second.to)].at;
  const bool same_run = first.run == second.run;
  if (const auto crossing = plan_crossing(a, b, c, d)) {
    const bool counts = !same_run || (inside(crossing->on_first, a, b) && inside(crossing->on_second, c, d));
    if (counts && crossing->height_between <= practice.crossing_clearance.value) {
      return Found{crossing->on_second, crossing->height_between <= practice.joining_tolerance.value,
                   crossing->height_between};
    }
  }
  if (same_run) return std::nullopt;
  const Approach approach = nearest_approach(a, b, c, d);
  if (approach.away > practice.joining_tolerance.value) return std::nullopt;
  return Found{approach.on_second, true, approach.away};
}

void report(const Garden& garden, const Leg& first, const Leg& second, const Found& found, Diagnostics& diagnostics) {
  const Run& one = garden.runs[static_cast<std::size_t>(first.run)];
  const Run& other = garden.runs[static_cast<std::size_t>(second.run)];
  const std::string where =
      fmt::format("[{}, {}]", to_text(found.at.east, garden.units), to_text(found.at.north, garden.units));
  const std::string how = found.touches
                              ? "without a joint"
                              : fmt::format("{} above or below it", to_text(found.height_between, garden.units));
  Diagnostic& diagnostic = diagnostics.warning("garden/crossing", second.place,
                                               fmt::format("{} crosses {} at {} {}", other.name, one.name, where, how));
  diagnostic.help = "let one end on the other to join them; leave it if they only pass";
  diagnostic.notes.push_back({fmt::format("{} is laid here", one.name), first.place});
}

}  // namespace

void report_crossings(const Garden& garden, const Practice& practice, Diagnostics& diagnostics) {
  std::vector<Box> boxes;
  for (const Leg& leg : garden.legs) boxes.push_back(box_of(garden, leg, practice.joining_tolerance.value));
  std::vector<std::size_t> order(boxes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return boxes[a].west < boxes[b].west; });
  std::set<std::pair<int, int>> told;
  std::vector<std::size_t> open;
  for (const std::size_t index : order) {
    std::erase_if(open, [&](std::size_t other) { return boxes[other].east < boxes[index].west; });
    for (const std::size_t other : open) {
      if (boxes[other].north < boxes[index].south || boxes[index].north < boxes[other].south) continue;
      const Leg& first = garden.legs[std::min(index, other)];
      const Leg& second = garden.legs[std::max(index, other)];
      if (told.count({first.run, second.run})) continue;
      const std::optional<Found> found = share_a_node(first, second) ? overlap_of(garden, first, second)
                                                                     : crossing_of(garden, first, second, practice);
      if (!found) continue;
      if (told.size() == kMostTold) return;
      told.insert({first.run, second.run});
      report(garden, first, second, *found, diagnostics);
    }
    open.push_back(index);
  }
}

}  // namespace teetally::garden
