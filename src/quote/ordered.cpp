#include "quote/cost_lines.h"
#include "teetally/quote/again.h"

namespace teetally {
namespace {

OrderedChange ordered_change(const Catalog& catalog, const Bundle& bundle, const BundleChange& change) {
  const BundleContent& content = bundle.contents[static_cast<std::size_t>(change.content)];
  const auto sku = [&](int item) { return catalog.items[static_cast<std::size_t>(item)].sku; };
  OrderedChange out;
  out.content = sku(content.item);
  if (change.swap >= 0) out.swap = sku(content.swaps[static_cast<std::size_t>(change.swap)].item);
  out.times = change.times;
  return out;
}

OrderedLine ordered_line(const Catalog& catalog, const OrderLine& line, UnitSystem units) {
  const CostLine words = ordered_cost_line(catalog, line, units);
  OrderedLine out;
  out.sku = words.sku;
  out.what = words.what;
  out.count = line.count;
  out.goods = line.goods;
  out.bundle = line.bundle >= 0;
  if (out.bundle) {
    const Bundle& bundle = catalog.bundles[static_cast<std::size_t>(line.bundle)];
    for (const BundleChange& change : line.changes) out.changes.push_back(ordered_change(catalog, bundle, change));
    return out;
  }
  const Pack& pack = catalog.items[static_cast<std::size_t>(line.item)].packs[static_cast<std::size_t>(line.pack)];
  out.pieces = pack.count;
  out.length = pack.length;
  return out;
}

}  // namespace

std::vector<OrderedFrom> ordered_from(const OfferBook& book, const Purchase& purchase, UnitSystem units) {
  std::vector<OrderedFrom> orders;
  for (const SupplierOrder& order : purchase.orders) {
    const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(order.catalog)];
    if (catalog.id == kOnHandId) continue;
    OrderedFrom from{catalog.id, catalog.name.empty() ? catalog.id : catalog.name, {}, order.cost};
    for (const OrderLine& line : order.lines) from.lines.push_back(ordered_line(catalog, line, units));
    orders.push_back(std::move(from));
  }
  return orders;
}

}  // namespace teetally
