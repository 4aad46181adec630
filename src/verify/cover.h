#pragma once
// The least that meeting the demands of one group costs, by trying every state of what is still missing.
#include <vector>

#include "teetally/verify/bound.h"

namespace teetally {

// In steps; kDearest when nothing meets them. `look`, when given, gets what one cheapest cover takes.
std::int64_t least_cover(const CoverGroup& group, const PriceSplit& prices, CaseLook* look);

}  // namespace teetally
