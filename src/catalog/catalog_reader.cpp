#include "catalog/catalog_reader.h"

#include "catalog/item_reader.h"
#include "catalog/terms_reader.h"

namespace teetally {

bool has_keys(const YamlNode& node, const std::string& what, const std::string& example, Diagnostics& diagnostics) {
  if (node.kind == YamlNode::Kind::mapping) return true;
  if (!node.place.known()) return false;  // refused when the file was read
  diagnostics.error("catalog/wrong-type", node.place, what + " is " + describe(node) + "; expected keys and values")
      .help = "for example " + example;
  return false;
}

namespace {

constexpr std::string_view kHeader = "catalog 1";

void read_supplier(Fields& fields, RawCatalog& raw, Diagnostics& diagnostics) {
  const YamlNode* node = fields.require("supplier");
  if (node == nullptr) return;
  const BareUnits bare;
  if (!has_keys(*node, "the supplier", "supplier: {id: fernhollow, name: Fernhollow Garden Supply}", diagnostics))
    return;
  Fields supplier(*node, "catalog", "the supplier", bare, diagnostics);
  supplier.require("id");
  raw.catalog.id = supplier.text("id").value_or("");
  raw.id_place = supplier.place_of("id");
  raw.catalog.name = supplier.text("name").value_or(raw.catalog.id);
  raw.catalog.notice = supplier.text("notice").value_or("");
  supplier.finish();
}

Currency read_currency(Fields& fields, Diagnostics& diagnostics) {
  fields.require("currency");
  const auto code = fields.text("currency");
  if (!code) return {};
  const auto currency = find_currency(*code);
  if (currency) return *currency;
  diagnostics.error("catalog/unknown-currency", fields.place_of("currency"), currency.error());
  return {};
}

void read_validity(Fields& fields, RawCatalog& raw, Diagnostics& diagnostics) {
  const YamlNode* node = fields.find("valid");
  if (node == nullptr) return;
  const BareUnits bare;
  Fields valid(*node, "catalog", "the validity", bare, diagnostics);
  if (!valid.is_mapping()) return;
  raw.catalog.valid_from = valid.text("from");
  raw.catalog.valid_until = valid.text("until");
  raw.from_place = valid.place_of("from");
  raw.until_place = valid.place_of("until");
  valid.finish();
}

bool is_catalog(Fields& fields, Diagnostics& diagnostics) {
  const YamlNode* header = fields.find("teetally");
  if (header != nullptr && header->kind == YamlNode::Kind::scalar && header->text == kHeader) return true;
  diagnostics
      .error("catalog/not-a-catalog", fields.place_of("teetally"),
             header == nullptr
                 ? "this is not a catalog file: the line 'teetally: catalog 1' is missing"
                 : "this is not a catalog file of a known version: expected 'catalog 1', found " + describe(*header))
      .help = "a catalog file starts with: teetally: catalog 1; keep other files out of a folder of catalogs";
  return false;
}

}  // namespace

std::optional<RawCatalog> read_raw_catalog(const Source& source, const Vocabulary& vocabulary,
                                           Diagnostics& diagnostics) {
  const YamlNode root = read_yaml(source, diagnostics);
  if (root.kind == YamlNode::Kind::null && diagnostics.has_errors()) return std::nullopt;
  const BareUnits none;
  Fields fields(root, "catalog", "the catalog", none, diagnostics);
  if (!fields.is_mapping() || !is_catalog(fields, diagnostics)) return std::nullopt;
  RawCatalog raw;
  raw.catalog.source = source;
  read_supplier(fields, raw, diagnostics);
  raw.catalog.currency = read_currency(fields, diagnostics);
  read_validity(fields, raw, diagnostics);
  const Reading reading{vocabulary, raw.catalog.currency, read_bare_units(fields, "catalog", diagnostics), diagnostics};
  if (const YamlNode* ordering = fields.find("ordering")) raw.catalog.terms = read_terms(*ordering, reading);
  raw.has_items = fields.require("items") != nullptr;
  for (const YamlNode* item : fields.list("items")) raw.catalog.items.push_back(read_item(*item, reading));
  for (const YamlNode* bundle : fields.list("bundles")) raw.bundles.push_back(read_bundle(*bundle, reading));
  fields.finish();
  return raw;
}

}  // namespace teetally
