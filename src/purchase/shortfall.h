#pragma once
// Why nothing can be bought: the needs that nothing serves, each alone; else one set of needs that cannot be
// served together although any one fewer could, and which rule stands in the way.
#include "purchase/solver.h"
#include "teetally/purchase.h"

namespace teetally {

// Needs (of an amount above zero) without any serving item, one shortfall each.
std::vector<Shortfall> unserved_needs(const OfferBook& book, const BuyLimits& limits);
// For a book that the engine finds infeasible. Leaves needs aside one by one for as long as the rest stays
// infeasible. `seconds` bounds the search; when it ends early the set may be larger than it must be, and says so.
Shortfall smallest_shortfall(const OfferBook& book, const BuyLimits& limits, const Engine& engine, double seconds);

}  // namespace teetally
