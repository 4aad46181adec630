#pragma once
// All items of all catalogs by kind, items of the same specification together, so that each specification is
// compared with a need once. Also what can be had of each item: whether any is for sale, and its longest coil.
#include <map>

#include "teetally/offers.h"

namespace teetally {

struct Alike {
  PartSpec part;
  std::vector<BookItem> items;  // in catalog order
};

struct Availability {
  bool for_sale = false;  // in a pack or in a bundle, with some left
  Length longest_coil;    // tubing only
};

struct Shelf {
  std::map<std::string, std::vector<Alike>> by_kind;
  std::vector<std::vector<Availability>> available;  // by catalog, item
  const std::vector<Alike>& of_kind(const std::string& kind) const;
  const Availability& of(const BookItem& item) const;
};

Shelf stack_shelf(const std::vector<std::shared_ptr<const Catalog>>& catalogs);

}  // namespace teetally
