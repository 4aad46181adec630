#include "catalog/on_hand_reader.h"

#include "catalog/fit_reader.h"

namespace teetally {

namespace {

constexpr std::string_view kHeader = "on hand 1";

bool is_on_hand(Fields& fields, Diagnostics& diagnostics) {
  const YamlNode* header = fields.find("teetally");
  if (header != nullptr && header->kind == YamlNode::Kind::scalar && header->text == kHeader) return true;
  diagnostics
      .error("catalog/not-on-hand", fields.place_of("teetally"),
             "this is not a list of parts on hand: the line 'teetally: on hand 1' is missing")
      .help = "a list of parts on hand starts with: teetally: on hand 1";
  return false;
}

// Tubing: `length`, and `count` when there are several coils or offcuts of it. Everything else: `count`.
Pack read_stock(Fields& fields, const Item& item, const Reading& reading) {
  Pack pack;
  pack.sku = item.sku;
  pack.place = item.place;
  pack.prices.push_back({1, Money{}, item.place});
  const KindType* kind = reading.vocabulary.find(item.part.kind);
  const bool by_length = kind != nullptr && kind->by_length;
  if (kind != nullptr && fields.has("length") != by_length) {
    reading.diagnostics.error("catalog/length-or-count", item.place,
                              by_length ? quoted(item.part.kind) + " on hand states its length"
                                        : quoted(item.part.kind) + " on hand states a count and no length");
  }
  if (fields.has("length")) pack.length = fields.length("length").value_or(kAnyLength);
  pack.stock = fields.count("count", 0, kMostPacks).value_or(1);
  return pack;
}

Item read_owned(const YamlNode& node, std::size_t number, const Reading& reading) {
  Item item;
  item.sku = "on-hand-" + std::to_string(number);
  item.place = node.place;
  Fields fields(node, "catalog", "a part on hand", reading.bare, reading.diagnostics);
  if (!fields.is_mapping()) return item;
  if (const auto sku = fields.text("sku")) item.sku = *sku;
  item.name = fields.text("name").value_or("");
  read_fit(fields, item, reading);
  auto part = read_part(fields, reading.vocabulary, reading.bare, reading.diagnostics);
  if (part) item.part = std::move(*part);
  if (item.name.empty()) item.name = item.part.kind + " on hand";
  item.packs.push_back(read_stock(fields, item, reading));
  fields.finish();
  return item;
}

}  // namespace

std::optional<RawCatalog> read_raw_on_hand(const Source& source, const Vocabulary& vocabulary, const Currency& currency,
                                           Diagnostics& diagnostics) {
  const YamlNode root = read_yaml(source, diagnostics);
  if (root.kind == YamlNode::Kind::null && diagnostics.has_errors()) return std::nullopt;
  const BareUnits none;
  Fields fields(root, "catalog", "the list of parts on hand", none, diagnostics);
  if (!fields.is_mapping() || !is_on_hand(fields, diagnostics)) return std::nullopt;
  RawCatalog raw;
  raw.catalog.source = source;
  raw.catalog.id = kOnHandId;
  raw.catalog.name = fields.text("name").value_or("Parts on hand");
  raw.catalog.currency = currency;
  const Reading reading{vocabulary, currency, read_bare_units(fields, "catalog", diagnostics), diagnostics};
  fields.require("parts");
  for (const YamlNode* part : fields.list("parts")) {
    Diagnostics own;
    const Reading apart{vocabulary, currency, reading.bare, own};
    raw.catalog.items.push_back(read_owned(*part, raw.catalog.items.size() + 1, apart));
    if (own.has_errors()) raw.unsound.add(part->place);
    for (Diagnostic& entry : own.in_order()) diagnostics.add(std::move(entry));
  }
  fields.finish();
  return raw;
}

}  // namespace teetally
