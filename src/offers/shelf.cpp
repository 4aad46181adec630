#include "offers/shelf.h"

#include <algorithm>

namespace teetally {

namespace {

void offer(Availability& available, Length coil) {
  available.for_sale = true;
  available.longest_coil = std::max(available.longest_coil, coil);
}

std::vector<Availability> availability_in(const Catalog& catalog) {
  std::vector<Availability> available(catalog.items.size());
  for (std::size_t i = 0; i < catalog.items.size(); ++i) {
    for (const Pack& pack : catalog.items[i].packs) {
      if (pack.stock.value_or(1) > 0) offer(available[i], pack.length);
    }
  }
  for (const Bundle& bundle : catalog.bundles) {
    if (bundle.stock.value_or(1) == 0) continue;
    for (const BundleContent& content : bundle.contents) {
      offer(available[static_cast<std::size_t>(content.item)], content.length);
      for (const Swap& swap : content.swaps) offer(available[static_cast<std::size_t>(swap.item)], content.length);
    }
  }
  return available;
}

}  // namespace

const std::vector<Alike>& Shelf::of_kind(const std::string& kind) const {
  static const std::vector<Alike> kNothing;
  const auto found = by_kind.find(kind);
  return found == by_kind.end() ? kNothing : found->second;
}

const Availability& Shelf::of(const BookItem& item) const {
  return available[static_cast<std::size_t>(item.catalog)][static_cast<std::size_t>(item.item)];
}

Shelf stack_shelf(const std::vector<std::shared_ptr<const Catalog>>& catalogs) {
  Shelf shelf;
  std::map<PartSpec, std::size_t> place_of;  // in its kind's list
  for (std::size_t c = 0; c < catalogs.size(); ++c) {
    shelf.available.push_back(availability_in(*catalogs[c]));
    for (std::size_t i = 0; i < catalogs[c]->items.size(); ++i) {
      const PartSpec& part = catalogs[c]->items[i].part;
      std::vector<Alike>& kind = shelf.by_kind[part.kind];
      const auto [place, is_new] = place_of.emplace(part, kind.size());
      if (is_new) kind.push_back({part, {}});
      kind[place->second].items.push_back({static_cast<int>(c), static_cast<int>(i)});
    }
  }
  return shelf;
}

}  // namespace teetally
