// `beds:` and `tape rows:`: rows of emitter line or tape, with the header that feeds them.
#include <fmt/format.h>

#include "design/anchors_reader.h"
#include "design/copies.h"
#include "design/elements_reader.h"
#include "design/measures.h"

namespace teetally::design {

namespace {

// `feed`, `feed at`, `rows from` and `valve`, alike for beds and tape rows.
template <typename Rows>
void read_supply(Fields& fields, const Reading& reading, const Copy& copy, Rows& rows) {
  rows.rows_from = fields.text("rows from").value_or("");
  const YamlNode* feed = fields.find("feed");
  if (feed) {
    if (const auto anchor = read_anchor(*feed, reading.bare, reading.diagnostics)) rows.feed = *anchor;
    shift_anchor(rows.feed, copy);
  }
  rows.feed_at = read_feed_at(fields);
  rows.size = read_size(fields, "header size");
  rows.valve = fields.yes_no("valve").value_or(false);
  rows.existing = fields.yes_no("existing").value_or(false);
  if (rows.rows_from.empty() && !feed) fields.require("feed");
  if (rows.rows_from.empty()) return;
  for (const char* key : {"feed", "feed at", "header", "header size"}) {
    if (!fields.has(key)) continue;
    reading.diagnostics
        .error("design/contradiction", fields.place_of(key),
               fmt::format("'{}' has no meaning beside 'rows from': those rows have no header", key))
        .help = "keep one of the two";
  }
  if (rows.valve) {
    reading.diagnostics
        .error("design/contradiction", fields.place_of("valve"),
               "'valve' has no meaning beside 'rows from': the rows leave the line one by one")
        .help = "give the rows a header, or put the valve on the line's own zone";
  }
}

void read_row_numbers(const YamlNode& node, const Reading& reading, Bed& bed) {
  if (!has_keys(node, "rows", "{count: 3}", reading.diagnostics)) return;
  Fields fields(node, "design", "rows", reading.bare, reading.diagnostics);
  bed.row_count = fields.count("count", 1, kMostRows);
  bed.row_spacing = length_above_zero(fields, "spacing", reading.diagnostics);
  fields.finish();
  if (fields.has("count") != fields.has("spacing")) return;
  reading.diagnostics.error("design/contradiction", node.place, "rows have either a 'count' or a 'spacing'").help =
      "for example rows: {count: 3} or rows: {spacing: 12 in}";
}

void read_row_tubing(Fields& fields, const Reading& reading, Bed& bed) {
  const YamlNode* line = fields.find("emitter line");
  const YamlNode* tape = fields.find("tape");
  if ((line != nullptr) == (tape != nullptr)) {
    reading.diagnostics
        .error("design/contradiction", bed.place,
               element_words("bed", bed.name) + " needs either 'emitter line' or 'tape'")
        .help = "for example emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}";
  }
  if (line) bed.rows = read_drip_tubing(*line, false, reading);
  if (tape && !line) bed.rows = read_drip_tubing(*tape, true, reading);
}

void read_row_direction(Fields& fields, const Reading& reading, Bed& bed) {
  bed.header = read_side(fields, "header");
  const auto direction = fields.one_of("direction", {"east-west", "north-south"});
  if (direction) bed.rows_east_west = *direction == "east-west";
  if (!bed.header || !bed.rows_east_west) return;
  const bool header_on_ends = *bed.header == Side::east || *bed.header == Side::west;
  if (header_on_ends == *bed.rows_east_west) return;
  reading.diagnostics
      .error("design/contradiction", fields.place_of("direction"),
             fmt::format("rows run {} but the header is on the {} side, along them", *direction, to_text(*bed.header)))
      .help = "the header lies across the rows' ends";
}

Bed read_bed(const Copy& copy, const Reading& reading) {
  Fields fields(copy.node, "design", element_words("bed", copy.family), reading.bare, reading.diagnostics);
  Bed bed;
  bed.name = read_name(fields, copy, reading);
  bed.place = copy.node.place;
  if (const YamlNode* corner = fields.require("corner")) {
    bed.corner = read_point(*corner, reading.bare, reading.diagnostics).value_or(Point{});
    bed.corner = shifted(bed.corner, copy.shift);
  }
  if (const YamlNode* size = fields.require("size")) {
    const Point extent = read_extent(*size, reading.bare, reading.diagnostics).value_or(Point{});
    bed.east_west = extent.east;
    bed.north_south = extent.north;
  }
  bed.height = length_from_zero(fields, "height", reading.diagnostics).value_or(Length{});
  if (const YamlNode* rows = fields.require("rows")) read_row_numbers(*rows, reading, bed);
  read_row_tubing(fields, reading, bed);
  read_row_direction(fields, reading, bed);
  read_supply(fields, reading, copy, bed);
  fields.finish();
  return bed;
}

void check_toward(const Fields& fields, const Reading& reading, const TapeRows& rows) {
  const auto east_west = [](Side side) { return side == Side::east || side == Side::west; };
  if (rows.count == 1 || east_west(rows.direction) != east_west(rows.toward)) return;
  reading.diagnostics
      .error("design/contradiction", fields.place_of("toward"),
             fmt::format("rows that run {} cannot lie one after another toward {}", to_text(rows.direction),
                         to_text(rows.toward)))
      .help = "'toward' is across the rows";
}

TapeRows read_rows(const Copy& copy, const Reading& reading) {
  Fields fields(copy.node, "design", element_words("tape rows", copy.family), reading.bare, reading.diagnostics);
  TapeRows rows;
  rows.name = read_name(fields, copy, reading);
  rows.place = copy.node.place;
  if (const YamlNode* start = fields.require("start")) {
    rows.start = shifted(read_point(*start, reading.bare, reading.diagnostics).value_or(Point{}), copy.shift);
  }
  fields.require("length");
  fields.require("direction");
  rows.length = length_above_zero(fields, "length", reading.diagnostics).value_or(Length{});
  rows.direction = read_side(fields, "direction").value_or(Side::east);
  rows.count = fields.count("count", 1, kMostRows).value_or(1);
  if (rows.count > 1) {
    fields.require("spacing");
    fields.require("toward");
  }
  rows.spacing = length_above_zero(fields, "spacing", reading.diagnostics).value_or(Length{});
  rows.toward = read_side(fields, "toward").value_or(rows.toward);
  if (fields.has("toward")) check_toward(fields, reading, rows);
  if (const YamlNode* tape = fields.require("tape")) rows.tape = read_drip_tubing(*tape, true, reading);
  read_supply(fields, reading, copy, rows);
  fields.finish();
  return rows;
}

}  // namespace

void read_beds(Fields& root, const Reading& reading, Site& site) {
  const CopyRules rules{"bed",
                        {"corner"},
                        {{"emitter line", "tape"},
                         {"rows from", "header"},
                         {"rows from", "feed"},
                         {"rows from", "feed at"},
                         {"rows from", "header size"},
                         {"rows from", "valve"}}};
  for (const Copy& copy : lay_out_copies(root.list("beds"), rules, reading.bare, reading.diagnostics)) {
    site.beds.push_back(read_bed(copy, reading));
  }
}

void read_tape_rows(Fields& root, const Reading& reading, Site& site) {
  const CopyRules rules{
      "tape rows",
      {"start"},
      {{"rows from", "feed"}, {"rows from", "feed at"}, {"rows from", "header size"}, {"rows from", "valve"}}};
  for (const Copy& copy : lay_out_copies(root.list("tape rows"), rules, reading.bare, reading.diagnostics)) {
    site.tape_rows.push_back(read_rows(copy, reading));
  }
}

}  // namespace teetally::design
