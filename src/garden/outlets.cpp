// Containers and sprays: one length of feeder tubing to each outlet; a bench has a line of its own.
#include <fmt/format.h>

#include <algorithm>

#include "garden/draft.h"

namespace teetally::garden {

namespace {

// What stands at the end of one length of feeder tubing.
struct Standing {
  std::string what;  // "container 'pots'"
  int element = -1;
  OutletSpec outlet;
  std::int64_t count = 1;
  std::string feeder;
  std::string rule;
  bool existing = false;
};

int add_device(const Standing& standing, const Place& place, const Laying& laying) {
  Device device;
  device.part = outlet_part(standing.outlet);
  device.element = standing.element;
  device.outlet = outlet_law(standing.outlet, laying.practice);
  device.count = standing.count;
  device.rule = standing.rule;
  device.existing = standing.existing;
  device.place = place;
  laying.draft.garden.devices.push_back(std::move(device));
  return static_cast<int>(laying.draft.garden.devices.size()) - 1;
}

// Along the ground first, then up.
void add_feeder(const Standing& standing, std::size_t number, Point from, const PlacedPoint& to, const Laying& laying) {
  if (laying.draft.garden.runs.size() > kMostRuns) return;
  Path path;
  Run run;
  run.name = fmt::format("{} feeder {}", standing.what, number);
  run.role = LegRole::feeder;
  run.size = standing.feeder;
  run.size_given = true;
  run.element = standing.element;
  run.tubing = plain_tubing(run.size, laying.practice);
  run.existing = standing.existing;
  run.place = to.place;
  path.run = static_cast<int>(laying.draft.garden.runs.size());
  extend(path, from, LegRole::feeder, to.place);
  extend(path, Point{to.at.east, to.at.north, from.up}, LegRole::feeder, to.place);
  extend(path, to.at, LegRole::feeder, to.place);
  if (distance(from, to.at) <= laying.practice.joining_tolerance.value) {
    laying.diagnostics
        .error("garden/outlet-on-line", to.place,
               fmt::format("outlet {} of {} stands on the tubing that feeds it", number, standing.what))
        .help = "give the place of the plant, and feed it from the line nearby";
    return;
  }
  path.outlet = add_device(standing, to.place, laying);
  laying.draft.garden.runs.push_back(std::move(run));
  laying.draft.paths.push_back(std::move(path));
}

void check_apart(const std::vector<PlacedPoint>& at, const std::string& what, const Laying& laying) {
  std::vector<PlacedPoint> sorted = at;
  const auto key = [](const PlacedPoint& p) { return std::tuple(p.at.east, p.at.north, p.at.up); };
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](const PlacedPoint& a, const PlacedPoint& b) { return key(a) < key(b); });
  for (std::size_t i = 0; i + 1 < sorted.size(); ++i) {
    if (!(sorted[i].at == sorted[i + 1].at)) continue;
    laying.diagnostics
        .error("garden/same-place", sorted[i + 1].place, fmt::format("two outlets of {} stand in one place", what))
        .help = "for several emitters in one container write 'emitters each'";
  }
}

void draft_container(const Containers& containers, const Laying& laying) {
  Standing standing;
  standing.what = "container " + quoted(containers.name);
  standing.element = add_element(laying.draft, "container", containers.name, containers.existing, containers.place);
  standing.outlet = containers.emitter;
  standing.count = containers.each;
  standing.feeder = feeder_size(containers.feeder, laying);
  standing.existing = containers.existing;
  standing.rule = containers.each == 1 ? "one emitter for each container"
                                       : fmt::format("{} emitters for each container", containers.each);
  check_size(standing.feeder, containers.place, laying);
  check_apart(containers.at, standing.what, laying);
  for (std::size_t i = 0; i < containers.at.size(); ++i) {
    const auto from = resolve(containers.feed, containers.at[i].at, laying);
    if (from) add_feeder(standing, i + 1, *from, containers.at[i], laying);
  }
}

Standing standing_of(const Sprays& sprays, const Laying& laying) {
  Standing standing;
  standing.what = "spray " + quoted(sprays.name);
  standing.element = add_element(laying.draft, "spray", sprays.name, sprays.existing, sprays.place);
  standing.outlet = sprays.outlet;
  standing.feeder = feeder_size(sprays.feeder, laying);
  standing.existing = sprays.existing;
  standing.rule = sprays.bench ? fmt::format("one {} for each square of the bench", sprays.outlet.kind)
                               : fmt::format("one {} for each place", sprays.outlet.kind);
  check_size(standing.feeder, sprays.place, laying);
  return standing;
}

// How many squares of `spacing` cover `length`, and the middle of each.
std::vector<Length> middles(Length length, Length spacing) {
  const std::int64_t squares = (length.tenths_mm + spacing.tenths_mm - 1) / spacing.tenths_mm;
  std::vector<Length> at;
  if (squares > 1000) return at;
  for (std::int64_t i = 0; i < squares; ++i) at.push_back(Length{length.tenths_mm * (2 * i + 1) / (2 * squares)});
  return at;
}

struct BenchPlan {
  bool east_west = true;  // the line's direction: along the longer side
  std::vector<Length> along, across;
  Length middle;  // of the width
};

Point on_bench(const Bench& bench, const BenchPlan& plan, Length along, Length across) {
  return bench.corner + (plan.east_west ? Point{along, across, {}} : Point{across, along, {}});
}

// From the feed along the ground, up to the bench, and along its middle. Answers whether it could be laid.
bool add_bench_line(const Sprays& sprays, const BenchPlan& plan, const Standing& standing, const Laying& laying) {
  const Bench& bench = *sprays.bench;
  Point start = on_bench(bench, plan, plan.along.front(), plan.middle);
  Point end = on_bench(bench, plan, plan.along.back(), plan.middle);
  const auto from_start = resolve(sprays.feed, start, laying), from_end = resolve(sprays.feed, end, laying);
  if (!from_start || !from_end) return false;
  const bool turned = distance(*from_end, end) < distance(*from_start, start);
  const Point feed = turned ? *from_end : *from_start;
  if (turned) std::swap(start, end);
  check_size(bench.size, bench.place, laying);
  Run run;
  run.name = standing.what + " line";
  run.role = LegRole::header;
  run.size = bench.size;
  run.size_given = !bench.size.empty();
  run.element = standing.element;
  run.tubing = plain_tubing(bench.size, laying.practice);
  run.may_join = true;
  run.existing = sprays.existing;
  run.place = bench.place;
  Path path;
  path.run = static_cast<int>(laying.draft.garden.runs.size());
  extend(path, feed, LegRole::riser, sprays.feed.place);
  extend(path, Point{start.east, start.north, feed.up}, LegRole::riser, bench.place);
  extend(path, start, LegRole::riser, bench.place);
  extend(path, end, LegRole::header, bench.place);
  laying.draft.garden.runs.push_back(std::move(run));
  if (path.at.size() > 1) laying.draft.paths.push_back(std::move(path));
  return true;
}

void draft_bench(const Sprays& sprays, const Laying& laying) {
  const Bench& bench = *sprays.bench;
  const Standing standing = standing_of(sprays, laying);
  BenchPlan plan;
  plan.east_west = bench.east_west >= bench.north_south;
  const Length length = plan.east_west ? bench.east_west : bench.north_south;
  const Length width = plan.east_west ? bench.north_south : bench.east_west;
  plan.along = middles(length, bench.spacing);
  plan.across = middles(width, bench.spacing);
  plan.middle = Length{width.tenths_mm / 2};
  if (plan.along.empty() || plan.across.empty() || plan.along.size() * plan.across.size() > 1000) {
    laying.diagnostics.error("garden/too-large", bench.place, "more than 1000 sprayers on one bench").help =
        "check the bench's size and spacing";
    return;
  }
  if (!add_bench_line(sprays, plan, standing, laying)) return;
  std::size_t number = 0;
  for (const Length& along : plan.along) {
    for (const Length& across : plan.across) {
      Point at = on_bench(bench, plan, along, across);
      at.up += laying.practice.sprayer_height.value;
      add_feeder(standing, ++number, on_bench(bench, plan, along, plan.middle), {at, bench.place}, laying);
    }
  }
}

}  // namespace

void draft_containers(const Laying& laying) {
  for (const Containers& containers : laying.site.containers) draft_container(containers, laying);
}

void draft_sprays(const Laying& laying) {
  for (const Sprays& sprays : laying.site.sprays) {
    if (sprays.bench) {
      draft_bench(sprays, laying);
      continue;
    }
    const Standing standing = standing_of(sprays, laying);
    check_apart(sprays.at, standing.what, laying);
    for (std::size_t i = 0; i < sprays.at.size(); ++i) {
      const auto from = resolve(sprays.feed, sprays.at[i].at, laying);
      if (from) add_feeder(standing, i + 1, *from, sprays.at[i], laying);
    }
  }
}

}  // namespace teetally::garden
