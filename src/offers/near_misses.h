#pragma once
// The items that nearly serve a need and why they do not: fewest mismatches first, then nearest in figures,
// then catalog order.
#include "offers/shelf.h"

namespace teetally {

struct Miss {
  BookItem item;
  std::string why;
};
std::vector<Miss> nearest_misses(const Need& need, const OfferBook& book, const Shelf& shelf,
                                 const Vocabulary& vocabulary, int most, UnitSystem units);

}  // namespace teetally
