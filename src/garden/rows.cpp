#include "garden/rows.h"

#include <fmt/format.h>

namespace teetally::garden {

std::vector<Length> row_positions(Length width, std::optional<std::int64_t> count, std::optional<Length> spacing,
                                  Length inset) {
  const Length usable = width - inset * 2;
  if (count && *count == 1) return {Length{width.tenths_mm / 2}};
  if (usable <= Length{}) return {};
  std::vector<Length> positions;
  if (count) {
    for (std::int64_t i = 0; i < *count; ++i) {
      positions.push_back(inset + Length{usable.tenths_mm * i / (*count - 1)});
    }
    return positions;
  }
  if (!spacing || *spacing <= Length{}) return {};
  const std::int64_t rows = usable.tenths_mm / spacing->tenths_mm + 1;
  if (rows > 1000) return {};
  const Length first{(width.tenths_mm - (rows - 1) * spacing->tenths_mm) / 2};
  for (std::int64_t i = 0; i < rows; ++i) positions.push_back(first + *spacing * i);
  return positions;
}

std::int64_t emitters_on(Length row, Length spacing, const Practice& practice) {
  if (spacing <= Length{}) return 0;
  const std::int64_t spacings = row.tenths_mm / spacing.tenths_mm;
  return practice.emitter_count_rule.value == "from start" ? spacings + 1 : spacings;
}

namespace {

// The way from the ground beside the bed up to the header's height, for a point of the header.
std::vector<Point> approach(const RowBlock& block, Point header_point) {
  if (block.rise <= Length{}) return {};
  const Point rim = header_point + block.outward;
  return {Point{rim.east, rim.north, rim.up - block.rise}, rim};
}

int add_run(const RowBlock& block, const std::string& name, LegRole role, const std::string& size,
            const Laying& laying) {
  Run run;
  run.name = name;
  run.role = role;
  run.size = size;
  run.size_given = !size.empty();
  run.element = block.element;
  run.tubing = plain_tubing(size, laying.practice);
  run.may_join = true;
  run.existing = block.existing;
  run.place = block.place;
  laying.draft.garden.runs.push_back(std::move(run));
  return static_cast<int>(laying.draft.garden.runs.size()) - 1;
}

int add_row_run(const RowBlock& block, std::size_t number, Length length, const Laying& laying) {
  const LegRole role = block.tubing.tape ? LegRole::tape : LegRole::row;
  const int index = add_run(block, fmt::format("{} row {}", block.what, number), role, block.tubing.size, laying);
  Run& run = laying.draft.garden.runs[static_cast<std::size_t>(index)];
  run.tubing = drip_part(block.tubing);
  run.may_join = false;
  run.emitters = drip_law(block.tubing, laying.practice);
  run.emitter_spacing = block.tubing.spacing;
  run.emitter_count = emitters_on(length, block.tubing.spacing, laying.practice);
  if (run.emitter_count == 0 && number == 1) {  // the rows of a block are alike
    laying.diagnostics
        .error("garden/row-without-emitters", block.place,
               fmt::format("the rows of {} are {} long, but their emitters are {} apart", block.what,
                           to_text(length, laying.site.units), to_text(block.tubing.spacing, laying.site.units)))
        .help = "lengthen the rows or choose a closer spacing";
  }
  return index;
}

void add_row(const RowBlock& block, std::size_t index, const Laying& laying) {
  const RowSpan& span = block.rows[index];
  Path path;
  path.run = add_row_run(block, index + 1, distance(span.start, span.end), laying);
  const LegRole role = block.tubing.tape ? LegRole::tape : LegRole::row;
  extend(path, span.start, role, block.place);
  extend(path, span.end, role, block.place);
  laying.draft.paths.push_back(std::move(path));
}

// Which header point the feed meets. Ends are named by compass; the first row is the south or west end.
std::optional<Point> feed_point(const RowBlock& block, const Laying& laying) {
  const Point first = block.rows.front().start, last = block.rows.back().start;
  if (block.rows.size() == 1 || block.feed_at == FeedAt::middle) return part_way(first, last, 0.5);
  if (block.feed_at == FeedAt::nearest_end) {
    const auto from_first = resolve(block.feed, first, laying), from_last = resolve(block.feed, last, laying);
    if (!from_first || !from_last) return std::nullopt;
    return distance(*from_last, last) < distance(*from_first, first) ? last : first;
  }
  const Point span = last - first;
  const bool along_north = block.feed_at == FeedAt::north_end || block.feed_at == FeedAt::south_end;
  const Length extent = along_north ? span.north : span.east;
  if (extent == Length{}) {
    laying.diagnostics
        .error("garden/no-such-end", block.place,
               fmt::format("the header of {} has no {} end: it runs {}", block.what,
                           along_north ? "north or south" : "east or west",
                           along_north ? "east and west" : "north and south"))
        .help = "name an end that the header has, or 'middle'";
    return std::nullopt;
  }
  const bool high = block.feed_at == FeedAt::north_end || block.feed_at == FeedAt::east_end;
  return (extent > Length{}) == high ? last : first;
}

// Riser and header are one run: they are of one size.
void add_header(const RowBlock& block, const Laying& laying) {
  const std::optional<Point> meets = feed_point(block, laying);
  if (!meets) return;
  const std::vector<Point> way = approach(block, *meets);
  const std::optional<Point> start = resolve(block.feed, way.empty() ? *meets : way.front(), laying);
  if (!start) return;
  check_size(block.header_size, block.place, laying);
  const int run = add_run(block, block.what + " header", LegRole::header, block.header_size, laying);
  const LegRole role = way.empty() ? LegRole::supply : LegRole::riser;
  Path feed;
  feed.run = run;
  extend(feed, *start, role, block.feed.place);
  for (const Point& point : way) extend(feed, point, role, block.place);
  extend(feed, *meets, role, block.place);
  const Point first = block.rows.front().start, last = block.rows.back().start;
  if (*meets == first || *meets == last) {
    extend(feed, *meets == first ? last : first, LegRole::header, block.place);
  } else {
    Path header;
    header.run = run;
    extend(header, first, LegRole::header, block.place);
    extend(header, last, LegRole::header, block.place);
    laying.draft.paths.push_back(std::move(header));
  }
  if (feed.at.size() > 1) laying.draft.paths.push_back(std::move(feed));
  if (block.valve) laying.draft.valve_runs.push_back(run);
}

// Without a header each row has a lead of plain tubing from the line to its start.
void add_lead(const RowBlock& block, std::size_t index, const Laying& laying) {
  const Point start = block.rows[index].start;
  const std::vector<Point> way = approach(block, start);
  const auto leaves = nearest_on_line(block.rows_from, way.empty() ? start : way.front(), laying.draft);
  if (!leaves) return;
  if (way.empty() && leaves->away <= laying.practice.joining_tolerance.value) return;
  const int run =
      add_run(block, fmt::format("{} lead {}", block.what, index + 1), LegRole::feeder, block.tubing.size, laying);
  Run& lead = laying.draft.garden.runs[static_cast<std::size_t>(run)];
  lead.may_join = false;
  if (block.tubing.tape) {
    laying.diagnostics
        .error("garden/tape-does-not-reach", block.place,
               fmt::format("row {} of {} starts {} from {}, and tape cannot be led there", index + 1, block.what,
                           to_text(leaves->away, laying.site.units), quoted(block.rows_from)))
        .help = "let the rows start on the line, or give them a header";
    return;
  }
  Path path;
  path.run = run;
  extend(path, leaves->at, LegRole::feeder, block.place);
  for (const Point& point : way) extend(path, point, LegRole::feeder, block.place);
  extend(path, start, LegRole::feeder, block.place);
  laying.draft.paths.push_back(std::move(path));
}

}  // namespace

void draft_rows(const RowBlock& block, const Laying& laying) {
  if (block.rows.empty()) return;
  check_size(block.tubing.size, block.tubing.place, laying);
  if (block.rows_from.empty()) add_header(block, laying);
  for (std::size_t i = 0; i < block.rows.size(); ++i) {
    if (laying.draft.garden.runs.size() > kMostRuns) return;
    if (!block.rows_from.empty()) add_lead(block, i, laying);
    add_row(block, i, laying);
  }
}

}  // namespace teetally::garden
