#include "purchase/order_terms.h"

#include <algorithm>
#include <set>

#include "purchase/plan.h"

namespace teetally {
namespace {

// The smallest goods value in [from, to] whose order value reaches `value`; to + 1 when none does.
std::int64_t reaches(std::int64_t from, std::int64_t to, std::int64_t discount_ppm, std::int64_t value) {
  std::int64_t low = from, high = to + 1;
  while (low < high) {
    const std::int64_t middle = low + (high - low) / 2;
    if (middle - rounded_share(discount_ppm, middle) >= value) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

// Every order value at which a charge may change.
std::vector<std::int64_t> value_thresholds(const OrderingTerms& terms) {
  std::vector<std::int64_t> values;
  for (const ShippingStep& step : terms.shipping) values.push_back(step.from.minor);
  if (terms.minimum_order) values.push_back(terms.minimum_order->minor);
  if (terms.small_order_below) values.push_back(terms.small_order_below->minor);
  return values;
}

std::int64_t charge_at(const OrderingTerms& terms, std::int64_t value) {
  std::int64_t charge = 0;
  for (const ShippingStep& step : terms.shipping) {
    if (step.from.minor <= value) charge = step.fee.minor;
  }
  if (terms.small_order_below && value < terms.small_order_below->minor) charge += terms.small_order_fee.minor;
  return charge;
}

void add_bracket(std::vector<OrderBracket>& brackets, const OrderBracket& next) {
  if (!brackets.empty() && brackets.back().to + 1 == next.from && brackets.back().charge == next.charge &&
      brackets.back().discount_ppm == next.discount_ppm) {
    brackets.back().to = next.to;
  } else {
    brackets.push_back(next);
  }
}

// The brackets between two discount steps.
void add_stretch(std::vector<OrderBracket>& brackets, const OrderingTerms& terms, std::int64_t from, std::int64_t to,
                 std::int64_t discount_ppm) {
  if (from > to) return;
  std::set<std::int64_t> starts{from};
  for (std::int64_t value : value_thresholds(terms)) {
    const std::int64_t start = reaches(from, to, discount_ppm, value);
    if (start <= to) starts.insert(start);
  }
  for (auto start = starts.begin(); start != starts.end(); ++start) {
    const auto next = std::next(start);
    const std::int64_t value = *start - rounded_share(discount_ppm, *start);
    if (terms.minimum_order && value < terms.minimum_order->minor) continue;
    add_bracket(brackets, {*start, next == starts.end() ? to : *next - 1, discount_ppm, charge_at(terms, value)});
  }
}

}  // namespace

std::vector<OrderBracket> order_brackets(const OrderingTerms& terms) {
  std::vector<OrderBracket> brackets;
  std::int64_t from = 0, discount_ppm = 0;
  for (const DiscountStep& step : terms.discounts) {
    add_stretch(brackets, terms, from, step.from.minor - 1, discount_ppm);
    from = step.from.minor;
    discount_ppm = step.percent.ppm;
  }
  add_stretch(brackets, terms, from, kMostGoods, discount_ppm);
  return brackets;
}

std::int64_t last_threshold(const std::vector<OrderBracket>& brackets) {
  return brackets.empty() ? 0 : brackets.back().from;
}

std::int64_t surely_delivered(const std::vector<OrderBracket>& brackets) {
  if (brackets.empty()) return kMostGoods;
  std::int64_t from = brackets.back().from;
  for (std::size_t i = brackets.size(); i-- > 0 && (i + 1 == brackets.size() || brackets[i].to + 1 == from);) {
    from = brackets[i].from;
  }
  return from;
}

// Let g be the goods after and G > g those before, r = G - g. The order then costs less by at least
// (1 + tax) ((1 - p) r - (p - q) g - (charges' difference)) less two roundings, where p and q are the discounts
// before and after; and (p - q) g is at most p times the goods value from which p holds.
std::int64_t most_saved_by_filler(const SupplierTerms& terms) {
  std::int64_t least_charge = kMostGoods, most_charge = 0, most_ppm = 0, most_discount = 0;
  for (const OrderBracket& bracket : terms.brackets) {
    least_charge = std::min(least_charge, bracket.charge);
    most_charge = std::max(most_charge, bracket.charge);
    most_ppm = std::max(most_ppm, bracket.discount_ppm);
  }
  if (terms.brackets.size() < 2) return 0;
  for (const OrderBracket& bracket : terms.brackets) {
    if (bracket.discount_ppm > 0) most_discount = std::max(most_discount, rounded_share(most_ppm, bracket.from) + 1);
  }
  const std::int64_t million = 1'000'000;
  if (most_ppm >= million) return kMostGoods;
  const std::int64_t saved = most_charge - least_charge + most_discount + 4;
  if (saved > kMostGoods / million) return kMostGoods;
  return saved * million / (million - most_ppm) + 1;
}

}  // namespace teetally
