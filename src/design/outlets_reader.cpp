// What gives the water: emitter line and tape, emitters of containers, sprayers and bubblers.
#include <fmt/format.h>

#include "design/anchors_reader.h"
#include "design/copies.h"
#include "design/elements_reader.h"
#include "design/measures.h"

namespace teetally::design {

namespace {

// How an outlet's flow depends on pressure; shared by tubing and single outlets.
template <typename Outlet>
void read_law(Fields& fields, const Reading& reading, Outlet& outlet) {
  fields.require("flow");
  outlet.flow = flow_above_zero(fields, "flow", reading.diagnostics).value_or(Flow{});
  outlet.compensating = fields.yes_no("compensating").value_or(false);
  outlet.rated_at = pressure_above_zero(fields, "rated at", reading.diagnostics).value_or(Pressure{});
  outlet.exponent = fields.number("exponent", 0, 1);
  outlet.least = pressure_above_zero(fields, "works from", reading.diagnostics);
  outlet.most = pressure_above_zero(fields, "works to", reading.diagnostics);
  if (outlet.least && outlet.most && *outlet.least >= *outlet.most) {
    reading.diagnostics.error("design/bad-value", fields.place_of("works to"),
                              "'works to' must be more than 'works from'");
  }
}

void read_feed(Fields& fields, const Reading& reading, const Copy& copy, Anchor& feed) {
  const YamlNode* node = fields.require("feed");
  if (!node) return;
  if (const auto anchor = read_anchor(*node, reading.bare, reading.diagnostics)) feed = *anchor;
  shift_anchor(feed, copy);
}

void shift_all(std::vector<PlacedPoint>& positions, Point by) {
  for (PlacedPoint& position : positions) position.at = shifted(position.at, by);
}

Containers read_container(const Copy& copy, const Reading& reading) {
  Fields fields(copy.node, "design", element_words("container", copy.family), reading.bare, reading.diagnostics);
  Containers containers;
  containers.name = read_name(fields, copy, reading);
  containers.place = copy.node.place;
  fields.require("at");
  containers.at = read_positions(fields, "at", reading);
  shift_all(containers.at, copy.shift);
  if (const YamlNode* emitter = fields.require("emitter")) {
    containers.emitter = read_outlet(*emitter, "emitter", reading);
  }
  containers.each = fields.count("emitters each", 1, 1000).value_or(1);
  containers.feeder = read_size(fields, "feeder");
  read_feed(fields, reading, copy, containers.feed);
  containers.existing = fields.yes_no("existing").value_or(false);
  fields.finish();
  return containers;
}

std::optional<Bench> read_bench(const YamlNode& node, const Reading& reading) {
  Fields fields(node, "design", "bench", reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  Bench bench;
  bench.place = node.place;
  const YamlNode* corner = fields.require("corner");
  const YamlNode* size = fields.require("size");
  fields.require("spacing");
  const auto at = corner ? read_point(*corner, reading.bare, reading.diagnostics) : std::nullopt;
  const auto extent = size ? read_extent(*size, reading.bare, reading.diagnostics) : std::nullopt;
  const auto spacing = length_above_zero(fields, "spacing", reading.diagnostics);
  bench.size = read_size(fields, "line size");
  fields.finish();
  if (!at || !extent || !spacing) return std::nullopt;
  bench.corner = *at;
  bench.east_west = extent->east;
  bench.north_south = extent->north;
  bench.spacing = *spacing;
  return bench;
}

// Either `sprayer:` or `bubbler:`.
void read_spray_outlet(Fields& fields, const Reading& reading, Sprays& sprays) {
  const YamlNode* sprayer = fields.find("sprayer");
  const YamlNode* bubbler = fields.find("bubbler");
  if ((sprayer != nullptr) == (bubbler != nullptr)) {
    reading.diagnostics
        .error("design/contradiction", sprays.place,
               element_words("spray", sprays.name) + " needs either 'sprayer' or 'bubbler'")
        .help = "for example sprayer: {flow: 8 gph, pattern: half}";
  }
  if (sprayer) sprays.outlet = read_outlet(*sprayer, "sprayer", reading);
  if (bubbler && !sprayer) sprays.outlet = read_outlet(*bubbler, "bubbler", reading);
}

Sprays read_spray(const Copy& copy, const Reading& reading) {
  Fields fields(copy.node, "design", element_words("spray", copy.family), reading.bare, reading.diagnostics);
  Sprays sprays;
  sprays.name = read_name(fields, copy, reading);
  sprays.place = copy.node.place;
  read_spray_outlet(fields, reading, sprays);
  const YamlNode* bench = fields.find("bench");
  if ((bench != nullptr) == fields.has("at")) {
    reading.diagnostics
        .error("design/contradiction", sprays.place,
               element_words("spray", sprays.name) + " needs either 'at' or 'bench'")
        .help = "'at' lists where each stands, 'bench' is a rectangle covered at a spacing";
  }
  if (bench) sprays.bench = read_bench(*bench, reading);
  if (fields.has("at")) sprays.at = read_positions(fields, "at", reading);
  shift_all(sprays.at, copy.shift);
  if (sprays.bench) sprays.bench->corner = shifted(sprays.bench->corner, copy.shift);
  sprays.feeder = read_size(fields, "feeder");
  read_feed(fields, reading, copy, sprays.feed);
  sprays.existing = fields.yes_no("existing").value_or(false);
  fields.finish();
  return sprays;
}

}  // namespace

DripTubing read_drip_tubing(const YamlNode& node, bool tape, const Reading& reading) {
  DripTubing tubing;
  tubing.tape = tape;
  tubing.place = node.place;
  const std::string what = tape ? "tape" : "emitter line";
  if (!has_keys(node, what, "{size: 1/4 in, spacing: 12 in, flow: 0.5 gph}", reading.diagnostics)) return tubing;
  Fields fields(node, "design", what, reading.bare, reading.diagnostics);
  fields.require("size");
  fields.require("spacing");
  tubing.size = read_size(fields, "size");
  tubing.spacing = length_above_zero(fields, "spacing", reading.diagnostics).value_or(Length{});
  read_law(fields, reading, tubing);
  fields.finish();
  return tubing;
}

OutletSpec read_outlet(const YamlNode& node, std::string kind, const Reading& reading) {
  OutletSpec outlet;
  outlet.kind = std::move(kind);
  outlet.place = node.place;
  const std::string_view example = outlet.kind == "sprayer" ? "{flow: 8 gph, pattern: half}" : "{flow: 1 gph}";
  if (!has_keys(node, outlet.kind, example, reading.diagnostics)) return outlet;
  Fields fields(node, "design", outlet.kind, reading.bare, reading.diagnostics);
  read_law(fields, reading, outlet);
  if (outlet.kind == "sprayer") {
    fields.require("pattern");
    outlet.pattern = fields.one_of("pattern", {"full", "half", "quarter", "strip", "mist"}).value_or("");
  }
  fields.finish();
  return outlet;
}

void read_containers(Fields& root, const Reading& reading, Site& site) {
  const CopyRules rules{"container", {"at"}, {}};
  for (const Copy& copy : lay_out_copies(root.list("containers"), rules, reading.bare, reading.diagnostics)) {
    site.containers.push_back(read_container(copy, reading));
  }
}

void read_sprays(Fields& root, const Reading& reading, Site& site) {
  const CopyRules rules{"spray", {"at", "bench"}, {{"sprayer", "bubbler"}}};
  for (const Copy& copy : lay_out_copies(root.list("sprays"), rules, reading.bare, reading.diagnostics)) {
    site.sprays.push_back(read_spray(copy, reading));
  }
}

}  // namespace teetally::design
