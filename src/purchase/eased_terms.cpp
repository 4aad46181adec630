#include "purchase/eased_terms.h"

#include <algorithm>
#include <optional>

namespace teetally {
namespace {

constexpr std::int64_t kMillion = 1'000'000;

Money earlier(Money from, Money by) { return std::max(Money{}, from - by); }

// The lowest fee within `by` above an order value.
Money lowest_fee(const std::vector<ShippingStep>& steps, Money value, Money by) {
  std::optional<Money> lowest;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const bool ended = i + 1 < steps.size() && steps[i + 1].from <= value;
    if (ended || steps[i].from > value + by) continue;
    lowest = std::min(lowest.value_or(steps[i].fee), steps[i].fee);
  }
  return lowest.value_or(Money{});
}

std::vector<ShippingStep> eased_shipping(const std::vector<ShippingStep>& steps, Money by) {
  std::vector<Money> starts;
  for (const ShippingStep& step : steps) {
    starts.push_back(step.from);
    starts.push_back(earlier(step.from, by));
  }
  std::sort(starts.begin(), starts.end());
  starts.erase(std::unique(starts.begin(), starts.end()), starts.end());
  std::vector<ShippingStep> eased;
  for (const Money start : starts) eased.push_back({start, lowest_fee(steps, start, by)});
  return eased;
}

}  // namespace

OrderingTerms eased(const OrderingTerms& terms, Money by, Money dearest) {
  OrderingTerms made = terms;
  std::int64_t most = 0;
  for (const DiscountStep& step : terms.discounts) most = std::max(most, step.percent.ppm);
  for (DiscountStep& step : made.discounts) step.from = earlier(step.from, by);
  // A discount that comes earlier lowers the order value, which fees look at.
  const Money value_by = by + Money{most * dearest.minor / kMillion + 2};
  made.shipping = eased_shipping(terms.shipping, value_by);
  if (made.minimum_order) made.minimum_order = earlier(*made.minimum_order, value_by);
  if (made.small_order_below) made.small_order_below = earlier(*made.small_order_below, value_by);
  return made;
}

}  // namespace teetally
