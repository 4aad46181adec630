#include "render/order_parts.h"

#include <algorithm>

namespace teetally {
namespace {

// The one price that gives the line's goods; none when steps were mixed.
std::optional<Money> even_price(const std::vector<PriceBreak>& prices, const OrderLine& line) {
  for (const PriceBreak& step : prices) {
    if (step.price * line.count == line.goods) return step.price;
  }
  return std::nullopt;
}

std::string change_words(const Catalog& catalog, const Bundle& bundle, const BundleChange& change, UnitSystem units) {
  const BundleContent& content = bundle.contents[static_cast<std::size_t>(change.content)];
  const Item& item = catalog.items[static_cast<std::size_t>(content.item)];
  const std::string amount =
      content.length.tenths_mm > 0 ? to_text(content.length, units) + " of" : std::to_string(content.count) + " x";
  const std::string part = item.name.empty() ? item.sku : item.name;
  std::string words = "in " + std::to_string(change.times) + ": ";
  if (change.swap < 0) return words + "without " + amount + " " + part;
  const Swap& swap = content.swaps[static_cast<std::size_t>(change.swap)];
  const Item& other = catalog.items[static_cast<std::size_t>(swap.item)];
  return words + amount + " " + (other.name.empty() ? other.sku : other.name) + " instead of " + part;
}

}  // namespace

bool is_cut(const Catalog& catalog, int item) {
  const std::vector<Pack>& packs = catalog.items[static_cast<std::size_t>(item)].packs;
  if (!packs.empty()) return packs.front().length.tenths_mm > 0;
  // Sold in bundles only: their contents tell.
  return std::any_of(catalog.bundles.begin(), catalog.bundles.end(), [item](const Bundle& bundle) {
    return std::any_of(bundle.contents.begin(), bundle.contents.end(), [item](const BundleContent& content) {
      return content.item == item && content.length.tenths_mm > 0;
    });
  });
}

std::string pack_words(const Pack& pack, UnitSystem units) {
  if (pack.length.tenths_mm > 0) return to_text(pack.length, units);
  return pack.count == 1 ? std::string() : "pack of " + std::to_string(pack.count);
}

const Catalog& catalog_at(const OfferBook& book, int catalog) {
  return *book.catalogs[static_cast<std::size_t>(catalog)];
}

const Currency& currency_of(const OfferBook& book) { return book.catalogs.front()->currency; }

LineParts parts_of(const Catalog& catalog, const OrderLine& line, UnitSystem units) {
  LineParts parts;
  if (line.bundle >= 0) {
    const Bundle& bundle = catalog.bundles[static_cast<std::size_t>(line.bundle)];
    parts.sku = bundle.sku;
    parts.what = (bundle.name.empty() ? bundle.sku : bundle.name) + " (bundle)";
    if (line.changes.empty()) parts.price = bundle.price;
    for (const BundleChange& change : line.changes) {
      parts.changes.push_back(change_words(catalog, bundle, change, units));
    }
    return parts;
  }
  const Item& item = catalog.items[static_cast<std::size_t>(line.item)];
  const Pack& pack = item.packs[static_cast<std::size_t>(line.pack)];
  parts.sku = pack.sku.empty() ? item.sku : pack.sku;
  parts.what = item.name.empty() ? item.sku : item.name;
  if (const std::string words = pack_words(pack, units); !words.empty()) parts.what += ", " + words;
  parts.price = even_price(pack.prices, line);
  return parts;
}

}  // namespace teetally
