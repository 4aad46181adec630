#pragma once
// Ordering terms as brackets of the goods value. Shipping, minimum order and small-order fee depend on the order
// value (goods less discount), which itself jumps down where a discount starts; between two discount steps it
// only rises, so every threshold becomes an exact threshold on goods, rounding included.
#include "purchase/problem.h"
#include "teetally/catalog.h"

namespace teetally {

std::vector<OrderBracket> order_brackets(const OrderingTerms& terms);

// From this goods value on, nothing changes any more: one bracket holds for all that is dearer.
std::int64_t last_threshold(const std::vector<OrderBracket>& brackets);
// From this goods value on, the supplier always delivers; kMostGoods when it never does.
std::int64_t surely_delivered(const std::vector<OrderBracket>& brackets);
// The most that goods of no use can save. Taking away unneeded goods worth more than this from an order always
// makes it cheaper, as long as the supplier still delivers. kMostGoods when there is no such limit.
std::int64_t most_saved_by_filler(const SupplierTerms& terms);

}  // namespace teetally
