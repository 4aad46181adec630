#pragma once
// Which goods values an order at one supplier can have at all: sums of what packs and bundles cost in counts that the
// case allows, filler included. A threshold is often reached only by a good deal more than it asks for.
#include <optional>
#include <vector>

#include "teetally/verify/bound.h"

namespace teetally {

// By goods value up to `most`; nothing where that would take too long to find out: then any value counts as possible.
std::optional<std::vector<bool>> attainable_goods(const Market& market, const CaseSpans& spans, int supplier,
                                                  std::int64_t most);
// Stretches cut down to values that are attainable.
std::vector<GoodsStretch> within(const std::vector<GoodsStretch>& stretches, const std::vector<bool>& attainable,
                                 const OrderingTerms& terms);

}  // namespace teetally
