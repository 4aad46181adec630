#include "catalog/item_reader.h"

#include "catalog/fit_reader.h"
#include "teetally/base/as_written.h"

namespace teetally {

namespace {

BreakRule read_rule(Fields& fields) {
  const auto rule = fields.one_of("rule", {"all units", "incremental"});
  return rule == "incremental" ? BreakRule::incremental : BreakRule::all_units;
}

void read_breaks(const YamlNode& node, const std::string& what, Pack& pack, const Reading& reading) {
  Fields fields(node, "catalog", "price breaks of " + what, reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return;
  pack.rule = read_rule(fields);
  fields.require("steps");
  for (const YamlNode* step : fields.list("steps")) {
    Fields one(*step, "catalog", "a price break of " + what, reading.bare, reading.diagnostics);
    if (!one.is_mapping()) continue;
    one.require("from");
    one.require("price");
    const auto from = one.count("from", 2, kMostPacks);
    const auto price = one.money("price", reading.currency);
    one.finish();
    if (from && price) pack.prices.push_back({*from, *price, step->place});
  }
  fields.finish();
}

Pack read_pack(const YamlNode& node, const Item& item, const Reading& reading) {
  Pack pack;
  pack.sku = item.sku;
  pack.place = node.place;
  const std::string what = "a pack of item " + quoted(item.sku);
  Fields fields(node, "catalog", what, reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return pack;
  if (const auto sku = fields.text("sku")) pack.sku = *sku;
  const KindType* kind = reading.vocabulary.find(item.part.kind);
  const bool by_length = kind != nullptr && kind->by_length;
  if (kind != nullptr && (fields.has("length") != by_length || (by_length && fields.has("count")))) {
    reading.diagnostics.error("catalog/length-or-count", fields.place(),
                              by_length ? what + " is a coil: it states a length and no count"
                                        : what + " is sold by the piece: it states a count and no length");
  }
  pack.count = fields.count("count", 1, kMostPieces).value_or(1);
  pack.length = by_length ? kAnyLength : Length{};
  if (const auto length = fields.length("length")) pack.length = *length;
  fields.require("price");
  pack.prices.push_back({1, fields.money("price", reading.currency).value_or(Money{1}), fields.place_of("price")});
  if (const YamlNode* breaks = fields.find("breaks")) read_breaks(*breaks, what, pack, reading);
  pack.stock = fields.count("stock", 0, kMostPacks);
  pack.multiple = fields.count("multiple", 1, kMostPacks).value_or(1);
  pack.minimum = fields.count("minimum", 1, kMostPacks).value_or(1);
  fields.finish();
  return pack;
}

// `price: 0.80` on the item itself: one piece for that price.
void read_single_price(Fields& fields, Item& item, const Reading& reading) {
  const auto price = fields.money("price", reading.currency);
  if (fields.has("packs")) {
    reading.diagnostics
        .error("catalog/price-or-packs", fields.place_of("price"),
               "item " + quoted(item.sku) + " states a price of its own and packs")
        .help = "put the price into a pack: {count: 1, price: ...}";
    return;
  }
  const KindType* kind = reading.vocabulary.find(item.part.kind);
  if (kind != nullptr && kind->by_length) {
    reading.diagnostics
        .error("catalog/length-or-count", fields.place_of("price"),
               "item " + quoted(item.sku) + " is sold in coils, found a price without a length")
        .help = "write packs: [{length: 100 ft, price: ...}]";
    return;
  }
  Pack single;
  single.sku = item.sku;
  single.place = fields.place_of("price");
  single.prices.push_back({1, price.value_or(Money{1}), single.place});
  item.packs.push_back(std::move(single));
}

}  // namespace

PartSpec read_part_of(Fields& fields, const std::string& what, const Reading& reading) {
  const YamlNode* node = fields.require("part");
  if (node == nullptr) return {};
  if (!has_keys(*node, "the part of " + what, "part: {kind: elbow, size: 1/2 in}", reading.diagnostics)) return {};
  Fields part(*node, "catalog", "the part of " + what, reading.bare, reading.diagnostics);
  auto spec = read_part(part, reading.vocabulary, reading.bare, reading.diagnostics);
  part.finish();
  return spec.value_or(PartSpec{});
}

Item read_item(const YamlNode& node, const Reading& reading) {
  Item item;
  item.place = node.place;
  Fields fields(node, "catalog", "an item", reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return item;
  fields.require("sku");
  item.sku = fields.text("sku").value_or("");
  item.part = read_part_of(fields, "item " + quoted(item.sku), reading);
  item.name = fields.text("name").value_or(as_written(item.part));
  read_fit(fields, item, reading);
  if (fields.has("price")) read_single_price(fields, item, reading);
  for (const YamlNode* pack : fields.list("packs")) item.packs.push_back(read_pack(*pack, item, reading));
  fields.finish();
  return item;
}

}  // namespace teetally
