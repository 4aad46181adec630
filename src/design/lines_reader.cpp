// `points:` and `lines:`: supply runs as walks or as lists of positions.
#include <fmt/format.h>

#include "design/anchors_reader.h"
#include "design/copies.h"
#include "design/elements_reader.h"
#include "design/measures.h"

namespace teetally::design {

namespace {

constexpr std::size_t kMostSteps = 1000;

WalkStep step_to(const PlacedPoint& position) {
  WalkStep step;
  Anchor to;
  to.form = Anchor::Form::at;
  to.at = position.at;
  to.place = position.place;
  step.to = to;
  step.place = position.place;
  return step;
}

void read_walk(Fields& fields, const Reading& reading, SupplyLine& line) {
  const YamlNode* walk = fields.find("walk");
  if (walk != nullptr && walk->kind == YamlNode::Kind::scalar) {
    reading.diagnostics
        .error("design/wrong-type", walk->place, fmt::format("'walk' is {}; expected a list of steps", describe(*walk)))
        .help = "put the steps in square brackets, as in walk: [down 18 in, east 10 ft]";
    return;
  }
  for (const YamlNode* item : fields.list("walk")) {
    if (const auto step = read_step(*item, reading.bare, reading.diagnostics)) line.walk.push_back(*step);
  }
}

// The first position is the start, unless `from` says where that is.
void read_corner_points(Fields& fields, const Reading& reading, bool has_from, SupplyLine& line) {
  const std::vector<PlacedPoint> positions = read_positions(fields, "points", reading);
  for (std::size_t i = 0; i < positions.size(); ++i) {
    if (i == 0 && !has_from) {
      line.from.form = Anchor::Form::at;
      line.from.at = positions[i].at;
      line.from.place = positions[i].place;
    } else {
      line.walk.push_back(step_to(positions[i]));
    }
  }
}

SupplyLine read_line(const Copy& copy, const Reading& reading) {
  Fields fields(copy.node, "design", element_words("line", copy.family), reading.bare, reading.diagnostics);
  SupplyLine line;
  line.name = read_name(fields, copy, reading);
  line.place = copy.node.place;
  const bool walks = fields.has("walk"), points = fields.has("points");
  const YamlNode* from = points ? fields.find("from") : fields.require("from");
  if (from) {
    if (const auto anchor = read_anchor(*from, reading.bare, reading.diagnostics)) line.from = *anchor;
  }
  if (walks == points) {
    reading.diagnostics
        .error("design/contradiction", line.place,
               fmt::format("{} has {}", element_words("line", line.name),
                           walks ? "both 'walk' and 'points'" : "no 'walk'"))
        .help = "say where it goes with 'walk' (east 18 ft, up 12 in) or with 'points'";
  }
  if (walks) read_walk(fields, reading, line);
  if (points && !walks) read_corner_points(fields, reading, from != nullptr, line);
  if (line.walk.size() > kMostSteps) {
    reading.diagnostics.error("design/too-many", line.place,
                              fmt::format("a walk of {} steps; expected at most {}", line.walk.size(), kMostSteps));
    line.walk.resize(kMostSteps);
  }
  line.size = read_size(fields, "size");
  line.existing = fields.yes_no("existing").value_or(false);
  fields.finish();
  shift_anchor(line.from, copy);
  for (WalkStep& step : line.walk) {
    if (step.to) shift_anchor(*step.to, copy);
  }
  return line;
}

}  // namespace

void read_points(const YamlNode& node, const Reading& reading, Site& site) {
  if (already_told(node)) return;
  if (node.kind != YamlNode::Kind::mapping) {
    reading.diagnostics.error("design/wrong-type", node.place,
                              fmt::format("'points' takes names with positions, found {}", describe(node)));
    return;
  }
  for (const YamlEntry& entry : node.entries) {
    const auto at = read_point(entry.value, reading.bare, reading.diagnostics);
    if (at) site.points.push_back({entry.key, *at, entry.key_place});
  }
}

void read_lines(Fields& root, const Reading& reading, Site& site) {
  const CopyRules rules{"line", {"from", "walk", "points"}, {}};
  for (const Copy& copy : lay_out_copies(root.list("lines"), rules, reading.bare, reading.diagnostics)) {
    site.lines.push_back(read_line(copy, reading));
  }
}

}  // namespace teetally::design
