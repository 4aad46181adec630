// A practice file overrides the shipped one key by key; every value keeps where it came from.
#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "design/measures.h"

namespace teetally {

namespace {

using design::length_above_zero;
using design::length_from_zero;
using design::pressure_above_zero;

// One group of the file ("waste"), and how its values say where they came from.
class Group {
 public:
  Group(const YamlNode& node, std::string what, const BareUnits& bare, bool shipped, Diagnostics& found)
      : fields(node, "design", std::move(what), bare, found), diagnostics(found), shipped_(shipped) {}

  std::string origin(const Place& place) const { return shipped_ ? "shipped practice" : to_string(place); }

  template <typename Value>
  void take(std::string_view key, const std::optional<Value>& value, Setting<Value>& setting) {
    if (value) setting = {*value, origin(fields.place_of(key))};
  }
  void percent(std::string_view key, Setting<Percent>& setting) { take(key, fields.percent(key), setting); }
  void count(std::string_view key, std::int64_t most, Setting<std::int64_t>& setting) {
    take(key, fields.count(key, 0, most), setting);
  }
  void number(std::string_view key, double least, double most, Setting<double>& setting) {
    take(key, fields.number(key, least, most), setting);
  }
  void distance(std::string_view key, Setting<Length>& setting) {
    take(key, length_from_zero(fields, key, diagnostics), setting);
  }
  void interval(std::string_view key, Setting<Length>& setting) {
    take(key, length_above_zero(fields, key, diagnostics), setting);
  }
  void pressure(std::string_view key, Setting<Pressure>& setting) {
    take(key, pressure_above_zero(fields, key, diagnostics), setting);
  }

  Fields fields;
  Diagnostics& diagnostics;

 private:
  bool shipped_;
};

void read_waste(Group& group, Practice& practice) {
  group.percent("supply", practice.tubing_waste);
  group.percent("rows", practice.row_waste);
  group.percent("tape", practice.tape_waste);
  group.percent("feeders", practice.feeder_waste);
}

void read_spares(Group& group, Practice& practice) {
  group.percent("fittings", practice.fitting_spares);
  group.count("couplings", 1000, practice.spare_couplings);
  group.count("hole plugs", 1000, practice.spare_hole_plugs);
}

void read_hold_downs(Group& group, Practice& practice) {
  group.interval("supply", practice.hold_down_supply);
  group.interval("rows", practice.hold_down_row);
}

void read_cutting(Group& group, Practice& practice) {
  group.distance("least joined part", practice.least_joined);
  group.distance("offcut kept from", practice.spare_offcut);
}

void read_layout(Group& group, Practice& practice) {
  group.number("elbow from", 1, 180, practice.elbow_from_degrees);
  group.distance("bends freely within", practice.bends_freely_within);
  group.number("straight within", 0, 90, practice.straight_within_degrees);
  group.take("four way", group.fields.one_of("four way", {"cross", "two tees"}), practice.four_way);
  group.number("punch below", 0, 1, practice.punch_below);
  group.distance("row inset", practice.row_inset);
  group.distance("row end inset", practice.row_end_inset);
  group.distance("header inset", practice.header_inset);
  group.interval("valve distance", practice.valve_distance);
  group.interval("sprayer height", practice.sprayer_height);
  group.interval("joining tolerance", practice.joining_tolerance);
  group.distance("crossing clearance", practice.crossing_clearance);
  group.take("emitters on a row", group.fields.one_of("emitters on a row", {"full spacings", "from start"}),
             practice.emitter_count_rule);
  if (practice.straight_within_degrees.value >= practice.elbow_from_degrees.value) {
    const Place place = group.fields.place_of(group.fields.has("straight within") ? "straight within" : "elbow from");
    group.diagnostics
        .error("design/bad-value", place,
               fmt::format("'straight within' is {} degrees and 'elbow from' {}; expected the first to be smaller",
                           practice.straight_within_degrees.value, practice.elbow_from_degrees.value))
        .help = "a turn is straight on, or bent by hand, or an elbow";
  }
}

void read_outlets(Group& group, Practice& practice) {
  group.take("feeder, inch", group.fields.text("feeder, inch"), practice.feeder_inch);
  group.take("feeder, metric", group.fields.text("feeder, metric"), practice.feeder_metric);
  group.number("exponent", 0, 1, practice.emitter_exponent);
  group.pressure("emitter rated at", practice.emitter_rated_at);
  group.pressure("tape rated at", practice.tape_rated_at);
  group.pressure("sprayer rated at", practice.sprayer_rated_at);
  group.pressure("compensating from", practice.compensating_least);
  group.pressure("compensating to", practice.compensating_most);
}

void read_head(Group& group, Practice& practice) {
  group.pressure("regulator, drip", practice.regulator_drip);
  group.pressure("regulator, tape", practice.regulator_tape);
  group.count("filter mesh, drip", 2000, practice.filter_mesh_drip);
  group.count("filter mesh, tape", 2000, practice.filter_mesh_tape);
}

void read_checks(Group& group, Practice& practice) {
  group.percent("flow margin", practice.flow_margin);
  group.take("rule of thumb", group.fields.yes_no("rule of thumb"), practice.use_rule_of_thumb);
  group.number("water temperature", 0, 60, practice.water_celsius);
  group.number("most velocity", 0.1, 10, practice.most_velocity_m_per_s);
}

// Names of a later stage's own settings: kept as words.
void read_other(const YamlNode& node, bool shipped, const BareUnits& bare, Practice& practice,
                Diagnostics& diagnostics) {
  Group group(node, "other", bare, shipped, diagnostics);
  if (!group.fields.is_mapping()) return;
  for (const YamlEntry& entry : node.entries) {
    group.take(entry.key, group.fields.text(entry.key), practice.other[entry.key]);
  }
}

void read_size(const YamlNode& node, bool shipped, const BareUnits& bare, Practice& practice,
               Diagnostics& diagnostics) {
  Group group(node, "size", bare, shipped, diagnostics);
  if (!group.fields.is_mapping()) return;
  if (!group.fields.require("size")) return group.fields.forgive(), group.fields.finish();
  const std::optional<std::string> name = group.fields.text("size");
  if (!name) return;
  const auto known = std::find_if(practice.sizes.begin(), practice.sizes.end(),
                                  [&](const NominalSize& size) { return size.name == *name; });
  NominalSize size = known == practice.sizes.end() ? NominalSize{} : *known;
  if (known == practice.sizes.end()) {
    for (const char* key : {"series", "use", "inside", "longest", "most", "least bend"}) group.fields.require(key);
  }
  size.name = *name;
  if (const auto series = group.fields.one_of("series", {"inch", "metric"})) size.series = *series;
  if (const auto use = group.fields.one_of("use", {"supply", "small", "tape"})) size.use = *use;
  if (const auto inside = group.fields.diameter("inside")) size.inside = *inside;
  if (const auto longest = length_above_zero(group.fields, "longest", diagnostics)) size.longest = *longest;
  if (const auto most = design::flow_above_zero(group.fields, "most", diagnostics)) size.most = *most;
  if (const auto bend = length_from_zero(group.fields, "least bend", diagnostics)) size.least_bend = *bend;
  if (group.fields.has("inside") && size.inside <= Diameter{}) {
    diagnostics.error("design/bad-value", group.fields.place_of("inside"), "'inside' must be more than nothing");
  }
  group.fields.finish();
  size.place = group.fields.place();
  size.origin = group.origin(size.place);
  if (known == practice.sizes.end()) {
    practice.sizes.push_back(size);
  } else {
    *known = size;
  }
}

void read_sizes(Fields& root, bool shipped, const BareUnits& bare, Practice& practice, Diagnostics& diagnostics) {
  for (const YamlNode* item : root.list("sizes")) read_size(*item, shipped, bare, practice, diagnostics);
  std::stable_sort(practice.sizes.begin(), practice.sizes.end(),
                   [](const NominalSize& a, const NominalSize& b) { return a.inside < b.inside; });
}

void read_into(Practice& practice, const Source& source, bool shipped, Diagnostics& diagnostics) {
  const YamlNode node = read_yaml(source, diagnostics);
  if (node.kind == YamlNode::Kind::null) return;
  const BareUnits none;
  Fields root(node, "design", "the practice file", none, diagnostics);
  if (!root.is_mapping() || !design::check_header(root, "practice", diagnostics)) return;
  const BareUnits bare = read_bare_units(root, "design", diagnostics);
  using Reader = void (*)(Group&, Practice&);
  const std::pair<std::string_view, Reader> groups[] = {
      {"waste", read_waste},     {"spares", read_spares}, {"hold-downs", read_hold_downs},
      {"cutting", read_cutting}, {"layout", read_layout}, {"outlets", read_outlets},
      {"head", read_head},       {"checks", read_checks}};
  for (const auto& [key, reader] : groups) {
    const YamlNode* child = root.find(key);
    if (!child) continue;
    Group group(*child, std::string(key), bare, shipped, diagnostics);
    if (!group.fields.is_mapping()) continue;
    reader(group, practice);
    group.fields.finish();
  }
  if (root.has("sizes")) read_sizes(root, shipped, bare, practice, diagnostics);
  if (const YamlNode* other = root.find("other")) read_other(*other, shipped, bare, practice, diagnostics);
  root.finish();
}

}  // namespace

Practice shipped_practice() {
  Practice practice;
  Diagnostics diagnostics;
  const Source source = source_from_text("practice.yaml", std::string(shipped_file("practice.yaml")));
  read_into(practice, source, true, diagnostics);
  assert(!diagnostics.has_errors() && "the shipped practice file is read by a test");
  return practice;
}

Practice read_practice(const Source& source, Diagnostics& diagnostics) {
  Practice practice = shipped_practice();
  read_into(practice, source, false, diagnostics);
  return practice;
}

}  // namespace teetally
