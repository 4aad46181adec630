#include <algorithm>

#include "teetally/quote/again.h"

namespace teetally {
namespace {

const Catalog* find_catalog(const std::vector<Catalog>& catalogs, const std::string& id) {
  const auto it = std::find_if(catalogs.begin(), catalogs.end(), [&](const Catalog& c) { return c.id == id; });
  return it == catalogs.end() ? nullptr : &*it;
}

const Pack* find_pack(const Catalog& catalog, const std::string& sku) {
  for (const Item& item : catalog.items) {
    for (const Pack& pack : item.packs) {
      if (pack.sku == sku) return &pack;
    }
  }
  return nullptr;
}

std::string stock_words(const std::optional<std::int64_t>& stock, std::int64_t count) {
  return stock && *stock < count ? "only " + std::to_string(*stock) + " left" : "";
}

void reprice_pack(const Catalog& catalog, RepricedLine& out) {
  const OrderedLine& line = out.line;
  const Pack* pack = find_pack(catalog, line.sku);
  if (pack == nullptr) {
    out.why = "no longer listed";
  } else if (pack->count != line.pieces || pack->length != line.length) {
    out.why = "the pack holds another amount now";
  } else {
    out.now = price_of(*pack, line.count);
    out.why = stock_words(pack->stock, line.count);
    if (line.count < pack->minimum) out.why = "at least " + std::to_string(pack->minimum) + " at a time now";
    if (line.count % pack->multiple != 0) out.why = "sold in multiples of " + std::to_string(pack->multiple) + " now";
  }
}

// What a change of one bundle costs now, where the bundle still allows it.
std::optional<Money> price_of_change(const Catalog& catalog, const Bundle& bundle, const OrderedChange& change) {
  const auto sku = [&](int item) { return catalog.items[static_cast<std::size_t>(item)].sku; };
  for (const BundleContent& content : bundle.contents) {
    if (sku(content.item) != change.content) continue;
    if (change.swap.empty()) {
      if (content.leave_out) return -(*content.leave_out * change.times);
      continue;
    }
    const std::int64_t units = content.length.tenths_mm > 0 ? 1 : content.count;
    for (const Swap& swap : content.swaps) {
      if (sku(swap.item) == change.swap) return swap.extra * units * change.times;
    }
  }
  return std::nullopt;
}

void reprice_bundle(const Catalog& catalog, RepricedLine& out) {
  const auto bundle = std::find_if(catalog.bundles.begin(), catalog.bundles.end(),
                                   [&](const Bundle& b) { return b.sku == out.line.sku; });
  if (bundle == catalog.bundles.end()) {
    out.why = "no longer listed";
    return;
  }
  Money now = bundle->price * out.line.count;
  for (const OrderedChange& change : out.line.changes) {
    const auto price = price_of_change(catalog, *bundle, change);
    if (!price) {
      out.why = "may no longer be changed as it was";
      return;
    }
    now += *price;
  }
  out.now = now;
  out.why = stock_words(bundle->stock, out.line.count);
}

RepricedOrder reprice_order(const OrderedFrom& order, const Catalog* catalog) {
  RepricedOrder out{order.supplier, order.name, {}, order.cost, std::nullopt, ""};
  bool whole = catalog != nullptr;
  Money goods;
  for (const OrderedLine& line : order.lines) {
    RepricedLine repriced{line, std::nullopt, ""};
    if (catalog != nullptr) (line.bundle ? reprice_bundle : reprice_pack)(*catalog, repriced);
    whole = whole && repriced.now;
    if (repriced.now) goods += *repriced.now;
    out.lines.push_back(std::move(repriced));
  }
  if (catalog == nullptr) out.why = "no catalog of this supplier is given";
  if (!whole) return out;
  out.now = landed_cost(catalog->terms, goods);
  const Money value = out.now->goods - out.now->discount;
  if (catalog->terms.minimum_order && value < *catalog->terms.minimum_order) {
    out.why = "less than the least order of " + to_text(*catalog->terms.minimum_order, catalog->currency);
  }
  return out;
}

}  // namespace

Repriced reprice(const std::vector<OrderedFrom>& orders, const std::vector<Catalog>& catalogs) {
  Repriced repriced;
  Money now;
  bool whole = true;
  for (const OrderedFrom& order : orders) {
    repriced.orders.push_back(reprice_order(order, find_catalog(catalogs, order.supplier)));
    repriced.then += order.cost.total;
    const auto& cost = repriced.orders.back().now;
    whole = whole && cost;
    if (cost) now += cost->total;
  }
  if (whole) repriced.now = now;
  return repriced;
}

}  // namespace teetally
