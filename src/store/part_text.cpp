#include "store/part_text.h"

#include <array>
#include <charconv>

namespace teetally {
namespace {

constexpr std::array<std::string_view, 7> kDimensions = {"word",     "count", "number",  "length",
                                                         "diameter", "flow",  "pressure"};

Json value_json(const std::string& name, const AttributeValue& value) {
  Json words = Json::array();
  for (const std::string& word : value.words) words.push(word);
  Json one = Json::array();
  one.push(name).push(std::string(kDimensions[static_cast<std::size_t>(value.dimension)])).push(std::move(words));
  return one.push(value.low).push(value.high);
}

Json grip_json(const Grip& grip) {
  Json one = Json::array();
  one.push(grip.by == Grip::By::inside ? "inside" : "outside");
  for (const Grip::Range& range : grip.ranges) one.push(range.low.tenths_um).push(range.high.tenths_um);
  return one;
}

const YamlNode* find(const YamlNode& mapping, std::string_view key) {
  for (const YamlEntry& entry : mapping.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

// Any whole number; flows in nanolitres go beyond what a person may write.
std::int64_t number_of(const YamlNode& node) {
  std::int64_t number = 0;
  std::from_chars(node.text.data(), node.text.data() + node.text.size(), number);
  return number;
}

std::optional<Diameter> diameter_of(const YamlNode& root, std::string_view key) {
  const YamlNode* node = find(root, key);
  if (node == nullptr || node->kind != YamlNode::Kind::scalar) return std::nullopt;
  return Diameter{number_of(*node)};
}

bool read_value(const YamlNode& node, PartSpec& part) {
  if (node.items.size() != 5) return false;
  AttributeValue value;
  std::size_t dimension = 0;
  while (dimension < kDimensions.size() && kDimensions[dimension] != node.items[1].text) ++dimension;
  if (dimension == kDimensions.size()) return false;
  value.dimension = static_cast<Dimension>(dimension);
  for (const YamlNode& word : node.items[2].items) value.words.push_back(word.text);
  value.low = number_of(node.items[3]);
  value.high = number_of(node.items[4]);
  part.attributes.emplace(node.items[0].text, std::move(value));
  return true;
}

Grip grip_of(const YamlNode& node) {
  Grip grip;
  if (!node.items.empty() && node.items[0].text == "outside") grip.by = Grip::By::outside;
  for (std::size_t i = 1; i + 1 < node.items.size(); i += 2) {
    grip.ranges.push_back({{number_of(node.items[i])}, {number_of(node.items[i + 1])}});
  }
  return grip;
}

}  // namespace

std::string part_text(const Item& item) {
  Json attributes = Json::array(), grips = Json::array();
  for (const auto& [name, value] : item.part.attributes) attributes.push(value_json(name, value));
  for (const Grip& grip : item.grips) grips.push(grip_json(grip));
  Json json = Json::object();
  json.set("kind", item.part.kind).set("attributes", std::move(attributes));
  if (item.inside) json.set("inside", item.inside->tenths_um);
  if (item.outside) json.set("outside", item.outside->tenths_um);
  json.set("grips", std::move(grips));
  return to_text(json, -1);
}

std::optional<Item> part_from_text(const std::string& text) {
  Diagnostics diagnostics;
  const YamlNode root = read_yaml(source_from_text("part", text), diagnostics);  // JSON is YAML, too
  const YamlNode *kind = find(root, "kind"), *attributes = find(root, "attributes"), *grips = find(root, "grips");
  if (diagnostics.has_errors() || kind == nullptr || attributes == nullptr || grips == nullptr) return std::nullopt;
  Item item;
  item.part.kind = kind->text;
  for (const YamlNode& node : attributes->items) {
    if (!read_value(node, item.part)) return std::nullopt;
  }
  item.inside = diameter_of(root, "inside");
  item.outside = diameter_of(root, "outside");
  for (const YamlNode& node : grips->items) item.grips.push_back(grip_of(node));
  return item;
}

}  // namespace teetally
