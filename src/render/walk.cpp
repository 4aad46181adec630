#include "render/walk.h"

#include <algorithm>

namespace teetally {
namespace {

bool brings(const Catalog& catalog, const OrderLine& line, int item) {
  if (line.bundle < 0) return line.item == item;
  const auto& contents = catalog.bundles[static_cast<std::size_t>(line.bundle)].contents;
  const auto swapped_in = [&](const BundleChange& change) {
    return change.swap >= 0 &&
           contents[static_cast<std::size_t>(change.content)].swaps[static_cast<std::size_t>(change.swap)].item == item;
  };
  return std::any_of(contents.begin(), contents.end(), [item](const BundleContent& c) { return c.item == item; }) ||
         std::any_of(line.changes.begin(), line.changes.end(), swapped_in);
}

}  // namespace

std::vector<BoughtAs> bought_for(const WalkView& view, int need) {
  std::vector<BoughtAs> lines;
  for (const Supply& supply : view.purchase->supplies) {
    if (supply.need != need) continue;
    const BookItem& sold = view.book->items[static_cast<std::size_t>(supply.item)];
    for (const SupplierOrder& order : view.purchase->orders) {
      if (order.catalog != sold.catalog) continue;
      const Catalog& catalog = *view.book->catalogs[static_cast<std::size_t>(order.catalog)];
      for (const OrderLine& line : order.lines) {
        if (brings(catalog, line, sold.item)) lines.push_back({order.catalog, &line});
      }
    }
  }
  return lines;
}

MissedItem missed_item(const OfferBook& book, const NearMiss& miss) {
  const BookItem& sold = book.items[static_cast<std::size_t>(miss.item)];
  const Catalog& catalog = *book.catalogs[static_cast<std::size_t>(sold.catalog)];
  return {&catalog, &catalog.items[static_cast<std::size_t>(sold.item)]};
}

std::string shown_line(const Place& place) {
  std::string_view line = line_text(place);
  line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
  return printable(line);
}

}  // namespace teetally
