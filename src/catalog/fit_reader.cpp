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

// `unread` stands for one that cannot be read: it counts as stated, so that it is complained about once.
std::optional<Diameter> read_diameter(Fields& fields, std::string_view key, Diameter unread, const Reading& reading) {
  const YamlNode* node = fields.find(key);
  if (node == nullptr) return std::nullopt;
  if (!expect_scalar(*node, std::string(key), reading)) return unread;
  return read_diameter(node->text, node->place, reading).value_or(unread);
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

// One that cannot be read counts as stated too, and grips nothing.
Grip read_grip(const YamlNode& node, const Reading& reading) {
  Grip grip;
  if (!has_keys(node, "what an end grips", "grips: {inside: 0.600 in}", reading.diagnostics)) return grip;
  Fields fields(node, "catalog", "what an end grips", reading.bare, reading.diagnostics);
  const YamlNode* inside = fields.find("inside");
  const YamlNode* outside = fields.find("outside");
  if ((inside == nullptr) == (outside == nullptr)) {
    const std::vector<std::string> others = fields.unasked();
    const std::string found = inside ? "both" : others.empty() ? "neither" : quoted(others.front());
    reading.diagnostics
        .error("catalog/grip-side", node.place, "an end grips tubing by its 'inside' or its 'outside', found " + found)
        .help = "write {inside: 0.600 in} for barbs, {outside: 0.700 in} for compression ends";
    return grip;
  }
  fields.finish();
  grip.by = inside ? Grip::By::inside : Grip::By::outside;
  grip.ranges = read_ranges(inside ? *inside : *outside, reading);
  return grip;
}

}  // namespace

void read_fit(Fields& fields, Item& item, const Reading& reading) {
  item.inside = read_diameter(fields, "inside", Diameter{}, reading);
  item.outside = read_diameter(fields, "outside", Diameter{kWidestTubing.tenths_um + 1}, reading);
  const YamlNode* grips = fields.find("grips");
  if (grips == nullptr) return;
  if (grips->kind != YamlNode::Kind::sequence) {
    item.grips.push_back(read_grip(*grips, reading));
    return;
  }
  for (const YamlNode& node : grips->items) item.grips.push_back(read_grip(node, reading));
}

}  // namespace teetally
