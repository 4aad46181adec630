#pragma once
// What an order costs at least, seen from its goods value alone.
#include <vector>

#include "teetally/verify/bound.h"
#include "verify/wide.h"

namespace teetally {

// Goods values within the span that are delivered and cost less than `cost` in all, as stretches with the same discount
// and charge.
std::vector<GoodsStretch> goods_stretches(const OrderingTerms& terms, const Span& span, std::int64_t cost);

struct GoodsFloor {
  Wide steps = kDearest;
  std::int64_t goods = 0;  // where that is
};
// The least over a stretch of the order's cost less `rate` steps for every minor unit of goods.
GoodsFloor goods_floor(const OrderingTerms& terms, const GoodsStretch& stretch, std::int64_t rate, std::int64_t steps);

}  // namespace teetally
