#pragma once
// Which supplier gets the largest order. Two orders that each cost more than half the best plan are dearer than it, so
// at most one supplier can have one. A bound alone does not see that: to it every supplier may be one whose order is
// large enough for free shipping. Parting the search by it gives every other supplier its charges.
#include <cstdint>
#include <vector>

#include "purchase/exact/bound.h"

namespace teetally {

// What an order costs at least in a supplier's state.
std::int64_t smallest_order(const ExactModel& model, std::size_t supplier, int state);

// For every supplier that may have an order dearer than half of `most_cost`, or none such: where its states are parted.
// Empty where fewer than two suppliers may.
std::vector<Bound::Split> parts_by_largest(const ExactModel& model, const SearchNode& node, std::int64_t most_cost);

}  // namespace teetally
