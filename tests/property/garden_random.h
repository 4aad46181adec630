#pragma once
// Seeded random gardens as Sites, every position stated, so that tests can scale, move, shuffle and turn them.
#include <random>
#include <string>
#include <vector>

#include "teetally/garden.h"

namespace teetally::testing {

using Random = std::mt19937;  // the standard fixes its numbers for a seed

inline std::int64_t pick(Random& random, std::int64_t least, std::int64_t most) {
  return least + static_cast<std::int64_t>(random() % static_cast<std::uint32_t>(most - least + 1));
}

inline Anchor at(Point point) {
  Anchor anchor;
  anchor.form = Anchor::Form::at;
  anchor.at = point;
  return anchor;
}

inline Point plus(Point a, Point b) { return {a.east + b.east, a.north + b.north, a.up + b.up}; }

// Corners of a line: its start and each step.
inline std::vector<Point> corners(const SupplyLine& line) {
  std::vector<Point> points{line.from.at};
  for (const WalkStep& step : line.walk) points.push_back(step.to->at);
  return points;
}

inline SupplyLine line_through(const std::string& name, const std::vector<Point>& points, const std::string& size) {
  SupplyLine line;
  line.name = name;
  line.size = size;
  line.from = at(points.front());
  for (std::size_t i = 1; i < points.size(); ++i) {
    WalkStep step;
    step.to = at(points[i]);
    line.walk.push_back(step);
  }
  return line;
}

inline Point random_move(Random& random) {
  const Length by = inches(12 * pick(random, 2, 9));
  switch (pick(random, 0, 6)) {
    case 0:
      return {by, {}, {}};
    case 1:
      return {-by, {}, {}};
    case 2:
      return {{}, by, {}};
    case 3:
      return {{}, -by, {}};
    case 4:
      return {{}, {}, by};
    case 5:
      return {by, by, {}};
    default:
      return {by, -by, {}};
  }
}

// On a random leg: an end of it, or half way, which is a whole number of units for every move above.
inline Point random_point_on(const SupplyLine& line, Random& random) {
  const std::vector<Point> points = corners(line);
  const auto leg = static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(points.size()) - 2));
  if (pick(random, 0, 2) == 0) return points[leg + 1];
  const Point a = points[leg], b = points[leg + 1];
  return {Length{(a.east.tenths_mm + b.east.tenths_mm) / 2}, Length{(a.north.tenths_mm + b.north.tenths_mm) / 2},
          Length{(a.up.tenths_mm + b.up.tenths_mm) / 2}};
}

inline std::string random_size(Random& random) {
  const char* sizes[] = {"", "1/2 in", "1/2 in", "3/4 in", "1/4 in"};
  return sizes[pick(random, 0, 4)];
}

inline void add_random_line(Site& site, Random& random) {
  const bool first = site.lines.empty();
  Point start;
  if (!first) {
    const auto parent = static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(site.lines.size()) - 1));
    start = random_point_on(site.lines[parent], random);
    if (start == Point{}) return;  // the tap has one line
  }
  std::vector<Point> points{start};
  for (std::int64_t steps = pick(random, 1, 4); steps > 0; --steps) {
    points.push_back(plus(points.back(), random_move(random)));
  }
  site.lines.push_back(line_through("line " + std::to_string(site.lines.size()), points, random_size(random)));
}

// Beds and pots stand off the lines' grid, so that they touch nothing by chance.
inline void add_random_bed(Site& site, Random& random) {
  const auto line = static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(site.lines.size()) - 1));
  const Point feed = random_point_on(site.lines[line], random);
  if (feed == Point{}) return;
  Bed bed;
  bed.name = "bed " + std::to_string(site.beds.size());
  bed.corner = plus(feed, {inches(29 + 60 * pick(random, 0, 2)), inches(17), -inches(2)});
  bed.east_west = feet(pick(random, 6, 16));
  bed.north_south = feet(pick(random, 3, 6));
  bed.height = inches(6 * pick(random, 0, 3));
  bed.row_count = pick(random, 1, 4);
  bed.header = pick(random, 0, 1) == 0 ? Side::west : Side::south;
  bed.feed_at = pick(random, 0, 1) == 0 ? FeedAt::middle : FeedAt::nearest_end;
  bed.feed = at(feed);
  bed.size = pick(random, 0, 1) == 0 ? "1/2 in" : "";
  bed.valve = pick(random, 0, 1) == 0;
  bed.rows = {false, pick(random, 0, 1) == 0 ? "1/4 in" : "1/2 in", inches(6), Flow{1893000000}, false, {}, {}, {}, {},
              {}};
  site.beds.push_back(bed);
}

inline void add_random_pot(Site& site, Random& random) {
  const auto line = static_cast<std::size_t>(pick(random, 0, static_cast<std::int64_t>(site.lines.size()) - 1));
  const Point feed = random_point_on(site.lines[line], random);
  if (feed == Point{}) return;
  Containers pots;
  pots.name = "pots " + std::to_string(site.containers.size());
  pots.at.push_back({plus(feed, {inches(7), -inches(5), inches(3)}), {}});
  pots.emitter.kind = "emitter";
  pots.emitter.flow = Flow{3785411784};
  pots.feed = at(feed);
  site.containers.push_back(pots);
}

inline Site random_site(std::uint32_t seed) {
  Random random(seed);
  Site site;
  site.name = "random";
  site.source.thread = "3/4 in hose";
  add_random_line(site, random);
  for (std::int64_t more = pick(random, 1, 5); more > 0; --more) add_random_line(site, random);
  for (std::int64_t beds = pick(random, 0, 2); beds > 0; --beds) add_random_bed(site, random);
  for (std::int64_t pots = pick(random, 1, 3); pots > 0; --pots) add_random_pot(site, random);
  return site;
}

// Applies `change` to every position and extent of a site.
template <typename Change>
void change_points(Site& site, Change change) {
  Point tap{site.source.east, site.source.north, site.source.up};
  change(tap);
  site.source.east = tap.east;
  site.source.north = tap.north;
  site.source.up = tap.up;
  for (SupplyLine& line : site.lines) {
    change(line.from.at);
    for (WalkStep& step : line.walk) change(step.to->at);
  }
  for (Bed& bed : site.beds) {
    change(bed.corner);
    change(bed.feed.at);
  }
  for (Containers& pots : site.containers) {
    change(pots.feed.at);
    for (PlacedPoint& pot : pots.at) change(pot.at);
  }
}

}  // namespace teetally::testing
