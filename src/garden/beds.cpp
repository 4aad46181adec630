// Beds: which way the rows run, where they lie, and which side carries the header.
#include <fmt/format.h>

#include "garden/rows.h"

namespace teetally::garden {

namespace {

bool on_east_or_west(Side side) { return side == Side::east || side == Side::west; }

bool rows_run_east_west(const Bed& bed) {
  if (bed.header) return on_east_or_west(*bed.header);
  if (bed.rows_east_west) return *bed.rows_east_west;
  return bed.east_west >= bed.north_south;
}

Point middle_of_side(const Bed& bed, Side side) {
  Point at = bed.corner + Point{Length{bed.east_west.tenths_mm / 2}, Length{bed.north_south.tenths_mm / 2}, {}};
  if (side == Side::west) at.east = bed.corner.east;
  if (side == Side::east) at.east = bed.corner.east + bed.east_west;
  if (side == Side::south) at.north = bed.corner.north;
  if (side == Side::north) at.north = bed.corner.north + bed.north_south;
  return at;
}

Length away(const Bed& bed, Point from, const Laying& laying) {
  if (!bed.rows_from.empty()) {
    const auto nearest = nearest_on_line(bed.rows_from, from, laying.draft);
    return nearest ? nearest->away : Length{};
  }
  // Asked for comparison only: what is wrong with the anchor is said when it is used.
  Diagnostics unheard;
  const auto at = resolve(bed.feed, from, {laying.site, laying.practice, unheard, laying.draft});
  return at ? distance(*at, from) : Length{};
}

// The stated side, else the end of the rows that is nearer to what feeds them.
Side header_side(const Bed& bed, const Laying& laying) {
  if (bed.header) return *bed.header;
  const bool east_west = rows_run_east_west(bed);
  const Side low = east_west ? Side::west : Side::south, high = east_west ? Side::east : Side::north;
  return away(bed, middle_of_side(bed, high), laying) < away(bed, middle_of_side(bed, low), laying) ? high : low;
}

// Coordinates along the rows (from the header's side) and across them (from the south or west) to a position.
Point place_in(const Bed& bed, Side side, Length along, Length across) {
  const Length top = bed.corner.up + bed.height;
  switch (side) {
    case Side::west:
      return {bed.corner.east + along, bed.corner.north + across, top};
    case Side::east:
      return {bed.corner.east + bed.east_west - along, bed.corner.north + across, top};
    case Side::south:
      return {bed.corner.east + across, bed.corner.north + along, top};
    case Side::north:
      return {bed.corner.east + across, bed.corner.north + bed.north_south - along, top};
  }
  return bed.corner;
}

bool rows_fit(const Bed& bed, const std::vector<Length>& across, Length width, Length row, const Laying& laying) {
  const UnitSystem units = laying.site.units;
  const Practice& practice = laying.practice;
  if (row <= Length{}) {
    laying.diagnostics
        .error("garden/rows-do-not-fit", bed.place,
               fmt::format("the bed is too short for rows: they start {} from one end and stop {} from the other",
                           to_text(practice.header_inset.value, units), to_text(practice.row_end_inset.value, units)))
        .help = "check the bed's size, or lessen 'header inset' and 'row end inset' in a practice file";
    return false;
  }
  const bool crowded = across.size() > 1 && across[1] - across[0] <= practice.joining_tolerance.value;
  if (!across.empty() && !crowded) return true;
  laying.diagnostics
      .error("garden/rows-do-not-fit", bed.place,
             fmt::format("the rows do not fit across {} with the outermost {} from the sides", to_text(width, units),
                         to_text(practice.row_inset.value, units)))
      .help = "ask for fewer rows, or lessen 'row inset' in a practice file";
  return false;
}

void draft_bed(const Bed& bed, const Laying& laying) {
  const Side side = header_side(bed, laying);
  const bool east_west = rows_run_east_west(bed);
  const Length width = east_west ? bed.north_south : bed.east_west;
  const Length length = east_west ? bed.east_west : bed.north_south;
  const Practice& practice = laying.practice;
  const Length start = practice.header_inset.value, end = length - practice.row_end_inset.value;
  const std::vector<Length> across = row_positions(width, bed.row_count, bed.row_spacing, practice.row_inset.value);
  RowBlock block;
  block.what = "bed " + quoted(bed.name);
  block.element = add_element(laying.draft, "bed", bed.name, bed.existing, bed.place);
  if (!rows_fit(bed, across, width, end - start, laying)) return;
  for (const Length& position : across) {
    block.rows.push_back({place_in(bed, side, start, position), place_in(bed, side, end, position)});
  }
  block.outward = place_in(bed, side, Length{}, Length{}) - place_in(bed, side, start, Length{});
  block.rise = bed.height;
  block.tubing = bed.rows;
  block.feed_at = bed.feed_at;
  block.feed = bed.feed;
  block.rows_from = bed.rows_from;
  block.header_size = bed.size;
  block.valve = bed.valve;
  block.existing = bed.existing;
  block.place = bed.place;
  draft_rows(block, laying);
}

Point step_toward(Side side, Length by) {
  switch (side) {
    case Side::north:
      return {{}, by, {}};
    case Side::south:
      return {{}, -by, {}};
    case Side::east:
      return {by, {}, {}};
    case Side::west:
      return {-by, {}, {}};
  }
  return {};
}

void draft_block_of_tape(const TapeRows& rows, const Laying& laying) {
  RowBlock block;
  block.what = "tape rows " + quoted(rows.name);
  block.element = add_element(laying.draft, "tape row", rows.name, rows.existing, rows.place);
  laying.draft.garden.elements.back().name = block.what;
  for (std::int64_t i = 0; i < rows.count; ++i) {
    const Point start = rows.start + step_toward(rows.toward, rows.spacing * i);
    block.rows.push_back({start, start + step_toward(rows.direction, rows.length)});
  }
  block.tubing = rows.tape;
  block.feed_at = rows.feed_at;
  block.feed = rows.feed;
  block.rows_from = rows.rows_from;
  block.header_size = rows.size;
  block.valve = rows.valve;
  block.existing = rows.existing;
  block.place = rows.place;
  draft_rows(block, laying);
}

}  // namespace

void draft_beds(const Laying& laying) {
  for (const Bed& bed : laying.site.beds) draft_bed(bed, laying);
}

void draft_tape_rows(const Laying& laying) {
  for (const TapeRows& rows : laying.site.tape_rows) draft_block_of_tape(rows, laying);
}

}  // namespace teetally::garden
