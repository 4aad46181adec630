#include "catalog/bundle_reader.h"

#include <algorithm>

#include "catalog/fit_reader.h"
#include "catalog/item_reader.h"

namespace teetally {

namespace {

std::optional<RawSwap> read_swap(const YamlNode& node, const std::string& what, const Reading& reading) {
  Fields fields(node, "catalog", "a swap in " + what, reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return std::nullopt;
  fields.require("item");
  const auto sku = fields.text("item");
  RawSwap swap;
  swap.extra = fields.money("extra", reading.currency).value_or(Money{});
  fields.finish();
  if (!sku) return std::nullopt;
  swap.item = {*sku, fields.place_of("item")};
  return swap;
}

// A content by part is an item of its own, known by the bundle's sku and its number in the bundle.
Item read_own_item(Fields& fields, const Bundle& bundle, std::size_t number, const Reading& reading) {
  Item item;
  item.sku = bundle.sku + "/" + std::to_string(number);
  item.place = fields.place();
  item.part = read_part_of(fields, "a content of bundle " + quoted(bundle.sku), reading);
  item.name = fields.text("name").value_or(item.part.kind + " of " + bundle.name);
  read_fit(fields, item, reading);
  return item;
}

RawContent read_content(const YamlNode& node, const Bundle& bundle, std::size_t number, const Reading& reading) {
  RawContent raw;
  raw.content.place = node.place;
  const std::string what = "bundle " + quoted(bundle.sku);
  Fields fields(node, "catalog", "a content of " + what, reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return raw;
  if (fields.has("item") == fields.has("part")) {
    Diagnostic& entry = reading.diagnostics.error(
        "catalog/item-or-part", node.place,
        "a content of " + what + " names either an item or a part, found " + (fields.has("item") ? "both" : "neither"));
    entry.help = fields.has("sku") ? "name the item by 'item' in place of 'sku'"
                                   : "write {item: SKU, count: 4} or {part: {kind: hole plug}, count: 10}";
    return raw;
  }
  if (fields.has("item")) {
    if (const auto sku = fields.text("item")) raw.item = SkuReference{*sku, fields.place_of("item")};
  } else {
    raw.own = read_own_item(fields, bundle, number, reading);
  }
  // What cannot be read still counts as stated, so that it is complained about once.
  if (fields.has("count")) raw.content.count = fields.count("count", 1, kMostPieces).value_or(1);
  if (fields.has("length")) raw.content.length = fields.length("length").value_or(kAnyLength);
  raw.content.leave_out = fields.money("leave out", reading.currency);
  for (const YamlNode* swap : fields.list("swaps")) {
    if (auto one = read_swap(*swap, what, reading)) raw.swaps.push_back(std::move(*one));
  }
  fields.finish();
  return raw;
}

// The supplier's stock and its limit per order come to the same: how many may be bought.
std::optional<std::int64_t> read_most(Fields& fields) {
  const auto stock = fields.count("stock", 0, kMostPacks);
  const auto limit = fields.count("limit", 1, kMostPacks);
  if (stock && limit) return std::min(*stock, *limit);
  return stock ? stock : limit;
}

}  // namespace

RawBundle read_bundle(const YamlNode& node, const Reading& reading) {
  RawBundle raw;
  Bundle& bundle = raw.bundle;
  bundle.place = node.place;
  Fields fields(node, "catalog", "a bundle", reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return raw;
  fields.require("sku");
  fields.require("price");
  bundle.sku = fields.text("sku").value_or("");
  bundle.name = fields.text("name").value_or(bundle.sku);
  bundle.price = fields.money("price", reading.currency).value_or(Money{kLargestAmount});
  bundle.stock = read_most(fields);
  const YamlNode* contents = fields.require("contents");
  if (contents != nullptr && contents->kind == YamlNode::Kind::sequence && contents->items.empty()) {
    reading.diagnostics.error("catalog/empty-bundle", bundle.place, "bundle " + quoted(bundle.sku) + " has no contents")
        .help = "for example contents: [{item: FH-TE50, count: 4}]";
  }
  for (const YamlNode* content : fields.list("contents")) {
    raw.contents.push_back(read_content(*content, bundle, raw.contents.size() + 1, reading));
  }
  fields.finish();
  return raw;
}

}  // namespace teetally
