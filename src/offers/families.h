#pragma once
// The fit families each tubing system could be bought in: the distinct diameters of the tubing on offer.
#include "offers/shelf.h"

namespace teetally {

// The longest piece of the need that has to come from one coil.
Length longest_unjoined(const Need& need);

// Tubing of the kind and attributes wanted, for sale, in coils long enough.
bool can_be_cut_for(const Need& need, const BookItem& item, const Shelf& shelf);

std::vector<SystemFamilies> collect_families(const Takeoff& takeoff,
                                             const std::vector<std::shared_ptr<const Catalog>>& catalogs,
                                             const Shelf& shelf, const Vocabulary& vocabulary, UnitSystem units);

FitFamily family_of(const Item& tubing);

}  // namespace teetally
