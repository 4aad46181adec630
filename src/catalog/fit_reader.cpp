#include "catalog/fit_reader.h"

namespace teetally {

namespace {

std::optional<Diameter> read_diameter(std::string_view text, const Place& place, const Reading& reading) {
  const auto diameter = parse_diameter(text, BareUnits{});
  if (!diameter) {
    reading.diagnostics.error("catalog/bad-value", place, diameter.error());
    return std::nullopt;
  }
  if (diameter->tenths_um <= 0 || *diameter > kWidestTubing) {
    reading.diagnostics.error("catalog/bad-value", place,
                              "a diameter must be more than nothing and at most 1 m, found " + quoted(text));
    return std::nullopt;
  }
  return *diameter;
}

bool expect_scalar(const YamlNode& node, const std::string& what, const Reading& reading) {
  if (node.kind == YamlNode::Kind::scalar) return true;
  if (!node.place.known()) return false;  // refused when the file was read
  reading.diagnostics.error("catalog/wrong-type", node.place,
                            what + " must be a diameter such as '0.600 in', found " + describe(node));
  return false;
}

std::optional<Diameter> read_diameter(Fields& fields, std::string_view key, const Reading& reading) {
  const YamlNode* node = fields.find(key);
  if (node == nullptr || !expect_scalar(*node, std::string(key), reading)) return std::nullopt;
  return read_diameter(node->text, node->place, reading);
}

// "0.600 in" or "0.690 in to 0.710 in".
std::optional<Grip::Range> read_range(const YamlNode& node, const Reading& reading) {
  if (!expect_scalar(node, "what an end grips", reading)) return std::nullopt;
  const std::string_view text = node.text;
  const std::size_t split = text.find(" to ");
  if (split == std::string_view::npos) {
    const auto single = read_diameter(text, node.place, reading);
    if (!single) return std::nullopt;
    return Grip::Range{*single, *single};
  }
  const auto low = read_diameter(text.substr(0, split), node.place, reading);
  const auto high = read_diameter(text.substr(split + 4), node.place, reading);
  if (!low || !high) return std::nullopt;
  return Grip::Range{*low, *high};
}

std::vector<Grip::Range> read_ranges(const YamlNode& node, const Reading& reading) {
  std::vector<Grip::Range> ranges;
  if (node.kind != YamlNode::Kind::sequence) {
    if (const auto range = read_range(node, reading)) ranges.push_back(*range);
    return ranges;
  }
  for (const YamlNode& one : node.items) {
    if (const auto range = read_range(one, reading)) ranges.push_back(*range);
  }
  return ranges;
}

std::optional<Grip> read_grip(const YamlNode& node, const Reading& reading) {
  Fields fields(node, "catalog", "what an end grips", reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  const YamlNode* inside = fields.find("inside");
  const YamlNode* outside = fields.find("outside");
  fields.finish();
  if ((inside == nullptr) == (outside == nullptr)) {
    reading.diagnostics
        .error("catalog/grip-side", node.place,
               inside ? "an end grips tubing by its inside or its outside, found both"
                      : "an end grips tubing by its inside or its outside, found neither")
        .help = "write {inside: 0.600 in} for barbs, {outside: 0.700 in} for compression ends";
    return std::nullopt;
  }
  Grip grip;
  grip.by = inside ? Grip::By::inside : Grip::By::outside;
  grip.ranges = read_ranges(inside ? *inside : *outside, reading);
  return grip;
}

}  // namespace

void read_fit(Fields& fields, Item& item, const Reading& reading) {
  item.inside = read_diameter(fields, "inside", reading);
  item.outside = read_diameter(fields, "outside", reading);
  const YamlNode* grips = fields.find("grips");
  if (grips == nullptr) return;
  if (grips->kind != YamlNode::Kind::sequence) {
    if (auto grip = read_grip(*grips, reading)) item.grips.push_back(std::move(*grip));
    return;
  }
  for (const YamlNode& node : grips->items) {
    if (auto grip = read_grip(node, reading)) item.grips.push_back(std::move(*grip));
  }
}

}  // namespace teetally
