#include "verify/goods.h"

#include <algorithm>
#include <set>

namespace teetally {
namespace {

constexpr std::int64_t kMillion = 1'000'000;

std::int64_t order_value(Percent discount, std::int64_t goods) {
  return goods - share_of(discount, Money{goods}).minor;
}

// The first goods value of [from, to] where the condition holds, from where on it holds; to + 1 when nowhere.
template <typename Condition>
std::int64_t first_where(std::int64_t from, std::int64_t to, Condition holds) {
  std::int64_t low = from, high = to + 1;
  while (low < high) {
    const std::int64_t middle = low + (high - low) / 2;
    if (holds(middle)) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return low;
}

bool delivers(const OrderingTerms& terms, const OrderCost& cost) {
  return !terms.minimum_order || cost.goods - cost.discount >= *terms.minimum_order;
}

// Goods values between two discount steps at which something else may change.
std::set<std::int64_t> starts_between(const OrderingTerms& terms, std::int64_t from, std::int64_t to,
                                      Percent discount) {
  std::set<std::int64_t> starts{from};
  const auto note = [&](Money value) {
    starts.insert(first_where(from, to, [&](std::int64_t g) { return order_value(discount, g) >= value.minor; }));
  };
  for (const ShippingStep& step : terms.shipping) note(step.from);
  if (terms.minimum_order) note(*terms.minimum_order);
  if (terms.small_order_below) note(*terms.small_order_below);
  return starts;
}

void add_stretch(std::vector<GoodsStretch>& stretches, const OrderingTerms& terms, GoodsStretch stretch,
                 std::int64_t cost) {
  if (stretch.from > stretch.to) return;
  const OrderCost least = landed_cost(terms, Money{stretch.from});
  if (!delivers(terms, least) || least.total.minor >= cost) return;
  stretch.charge = (least.shipping + least.small_order_fee).minor;
  // Within a stretch dearer goods never make a cheaper order.
  stretch.to = first_where(stretch.from, stretch.to,
                           [&](std::int64_t g) { return landed_cost(terms, Money{g}).total.minor >= cost; }) -
               1;
  if (stretch.to - stretch.from < kShortStretch) {
    for (std::int64_t g = stretch.from; g <= stretch.to; ++g) {
      stretch.values.push_back({g, landed_cost(terms, Money{g}).total.minor});
    }
  }
  stretches.push_back(std::move(stretch));
}

void add_between(std::vector<GoodsStretch>& stretches, const OrderingTerms& terms, std::int64_t from, std::int64_t to,
                 Percent discount, const Span& span, std::int64_t cost) {
  if (from > to) return;
  const std::set<std::int64_t> starts = starts_between(terms, from, to, discount);
  for (auto start = starts.begin(); start != starts.end() && *start <= to; ++start) {
    const auto next = std::next(start);
    const std::int64_t last = next == starts.end() ? to : *next - 1;
    add_stretch(stretches, terms,
                {std::max({*start, span.from, std::int64_t{0}}), std::min(last, span.to), discount.ppm, 0, {}}, cost);
  }
}

// The order's cost in millionths of millionths of a step, from below and without rounding: each of discount and tax is
// rounded to the nearest minor unit, so half of one may be lost, of the discount with the tax on it.
Wide line_at(const OrderingTerms& terms, const GoodsStretch& stretch, std::int64_t goods, std::int64_t rate,
             std::int64_t steps) {
  const Wide one = static_cast<Wide>(kMillion) * kMillion;
  const Wide with_tax = kMillion + terms.tax.ppm;
  Wide cost = static_cast<Wide>(kMillion - stretch.discount_ppm) * with_tax * goods;
  cost += static_cast<Wide>(stretch.charge) * (terms.tax_on_shipping ? with_tax * kMillion : one);
  if (stretch.discount_ppm > 0) cost -= with_tax * kMillion / 2 + 1;
  if (terms.tax.ppm > 0) cost -= one / 2;
  return cost * steps - static_cast<Wide>(rate) * goods * one;
}

Wide whole_steps(Wide fine) {
  const Wide one = static_cast<Wide>(kMillion) * kMillion;
  return fine >= 0 ? fine / one : -((-fine + one - 1) / one);
}

GoodsFloor floor_one_by_one(const GoodsStretch& stretch, std::int64_t rate, std::int64_t steps) {
  GoodsFloor floor;
  for (const GoodsStretch::Value& at : stretch.values) {
    const Wide value = static_cast<Wide>(at.cost) * steps - static_cast<Wide>(rate) * at.goods;
    if (value < floor.steps) floor = {value, at.goods};
  }
  return floor;
}

}  // namespace

std::vector<GoodsStretch> goods_stretches(const OrderingTerms& terms, const Span& span, std::int64_t cost) {
  std::vector<GoodsStretch> stretches;
  std::int64_t from = 0;
  Percent discount;
  for (const DiscountStep& step : terms.discounts) {
    add_between(stretches, terms, from, step.from.minor - 1, discount, span, cost);
    from = step.from.minor;
    discount = step.percent;
  }
  add_between(stretches, terms, from, kMostOfAll, discount, span, cost);
  return stretches;
}

GoodsFloor goods_floor(const OrderingTerms& terms, const GoodsStretch& stretch, std::int64_t rate, std::int64_t steps) {
  if (!stretch.values.empty()) return floor_one_by_one(stretch, rate, steps);
  const Wide at_from = line_at(terms, stretch, stretch.from, rate, steps);
  const Wide at_to = line_at(terms, stretch, stretch.to, rate, steps);
  const Wide by_line = whole_steps(std::min(at_from, at_to));
  const Wide least = landed_cost(terms, Money{stretch.from}).total.minor;
  const Wide by_least = least * steps - static_cast<Wide>(rate) * stretch.to;
  return {std::max(by_line, by_least), at_from <= at_to ? stretch.from : stretch.to};
}

}  // namespace teetally
