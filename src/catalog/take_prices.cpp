#include <algorithm>
#include <map>

#include "catalog/price_list_reader.h"
#include "teetally/catalog/price_list.h"

namespace teetally {
namespace {

// A price in the file: what it is of, and where it stands.
struct PriceSpot {
  std::string sku, name;
  const YamlNode* price = nullptr;
  bool has_breaks = false;
};

const YamlNode* find(const YamlNode& mapping, std::string_view key) {
  for (const YamlEntry& entry : mapping.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

std::string text_of(const YamlNode& mapping, std::string_view key, const std::string& otherwise) {
  const YamlNode* node = find(mapping, key);
  return node == nullptr ? otherwise : node->text;
}

void add_spot(const YamlNode& priced, const std::string& sku, const std::string& name, std::vector<PriceSpot>& spots) {
  if (const YamlNode* price = find(priced, "price")) {
    spots.push_back({text_of(priced, "sku", sku), name, price, find(priced, "breaks") != nullptr});
  }
}

std::vector<PriceSpot> spots_of(const YamlNode& root) {
  std::vector<PriceSpot> spots;
  if (const YamlNode* items = find(root, "items")) {
    for (const YamlNode& item : items->items) {
      const std::string sku = text_of(item, "sku", ""), name = text_of(item, "name", "");
      add_spot(item, sku, name, spots);
      const YamlNode* packs = find(item, "packs");
      if (packs == nullptr) continue;
      for (const YamlNode& pack : packs->items) add_spot(pack, sku, name, spots);
    }
  }
  if (const YamlNode* bundles = find(root, "bundles")) {
    for (const YamlNode& bundle : bundles->items) add_spot(bundle, "", text_of(bundle, "name", ""), spots);
  }
  return spots;
}

// Bytes before a place; columns count characters.
std::size_t offset_of(const std::string& text, const Place& place) {
  std::size_t at = 0;
  for (int line = 1; line < place.line; ++line) at = text.find('\n', at) + 1;
  for (int column = 1; column < place.column; ++column) {
    ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) ++at;
  }
  return at;
}

struct Edit {
  std::size_t at = 0, length = 0;
  std::string text;
};

Edit edit_of(const std::string& text, const YamlNode& price, const std::string& with) {
  const std::size_t at = offset_of(text, price.place);
  return {price.quoted ? at + 1 : at, price.text.size(), with};
}

std::string edited(std::string text, std::vector<Edit> edits) {
  std::sort(edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.at > b.at; });
  for (const Edit& edit : edits) text.replace(edit.at, edit.length, edit.text);
  return text;
}

void warn_of_breaks(const PriceSpot& spot, Diagnostics& diagnostics) {
  diagnostics
      .warning("catalog/breaks-stay", spot.price->place,
               "the price of " + quoted(printable(spot.sku)) + " changes; its price breaks stay as they are")
      .help = "look the breaks over: the list has one price for each sku";
}

}  // namespace

std::optional<PricedCatalog> take_prices(const Source& source, const Source& list, const Vocabulary& vocabulary,
                                         Diagnostics& diagnostics) {
  Diagnostics first_read;  // warnings are given once, for the file as it becomes
  const auto catalog = read_catalog(source, vocabulary, first_read);
  if (!catalog) {
    for (Diagnostic& found : first_read.in_order()) diagnostics.add(std::move(found));
    return std::nullopt;
  }
  const Currency& currency = catalog->currency;
  const std::vector<ListRow> rows = read_price_list(list, currency, diagnostics);
  if (diagnostics.has_errors()) return std::nullopt;
  std::map<std::string, const ListRow*> listed;
  for (const ListRow& row : rows) listed.emplace(row.sku, &row);

  PricedCatalog priced;
  PriceListReport& report = priced.report;
  report = {catalog->id, catalog->name, currency, {}, {}, {}, {}, 0};
  const YamlNode root = read_yaml(source, diagnostics);
  std::vector<Edit> edits;
  std::map<std::string, bool> known;
  for (const PriceSpot& spot : spots_of(root)) {
    known[spot.sku] = true;
    const Money before = parse_money(spot.price->text, currency).value_or(Money{});
    const auto row = listed.find(spot.sku);
    if (row == listed.end()) {
      report.gone.push_back({spot.sku, spot.name, before, std::nullopt});
      continue;
    }
    const Money after = row->second->price;
    if (after == before) {
      ++report.same;
      continue;
    }
    (after > before ? report.dearer : report.cheaper).push_back({spot.sku, spot.name, before, after});
    edits.push_back(edit_of(source->text, *spot.price, to_string(after, currency)));
    if (spot.has_breaks) warn_of_breaks(spot, diagnostics);
  }
  for (const ListRow& row : rows) {
    if (!known.count(row.sku)) report.fresh.push_back({row.sku, row.name, std::nullopt, row.price});
  }
  priced.text = edited(source->text, std::move(edits));
  if (!read_catalog(source_from_text(source->name, priced.text), vocabulary, diagnostics)) return std::nullopt;
  return priced;
}

}  // namespace teetally
