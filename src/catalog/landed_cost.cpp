#include "teetally/catalog.h"

namespace teetally {

namespace {

Money price_of_all_alike(const Pack& pack, std::int64_t packs) {
  Money each = pack.prices.front().price;
  for (const PriceBreak& step : pack.prices) {
    if (packs >= step.from) each = step.price;
  }
  return each * packs;
}

Money price_step_by_step(const Pack& pack, std::int64_t packs) {
  Money total;
  for (std::size_t i = 0; i < pack.prices.size() && pack.prices[i].from <= packs; ++i) {
    const bool is_last = i + 1 == pack.prices.size() || pack.prices[i + 1].from > packs;
    const std::int64_t end = is_last ? packs + 1 : pack.prices[i + 1].from;
    total += pack.prices[i].price * (end - pack.prices[i].from);
  }
  return total;
}

Percent discount_at(const OrderingTerms& terms, Money goods) {
  Percent percent;
  for (const DiscountStep& step : terms.discounts) {
    if (goods >= step.from) percent = step.percent;
  }
  return percent;
}

Money shipping_at(const OrderingTerms& terms, Money order_value) {
  Money fee;
  for (const ShippingStep& step : terms.shipping) {
    if (order_value >= step.from) fee = step.fee;
  }
  return fee;
}

}  // namespace

Money price_of(const Pack& pack, std::int64_t packs) {
  return pack.rule == BreakRule::all_units ? price_of_all_alike(pack, packs) : price_step_by_step(pack, packs);
}

OrderCost landed_cost(const OrderingTerms& terms, Money goods) {
  OrderCost cost;
  cost.goods = goods;
  cost.discount = share_of(discount_at(terms, goods), goods);
  const Money order_value = goods - cost.discount;
  cost.shipping = shipping_at(terms, order_value);
  if (terms.small_order_below && order_value < *terms.small_order_below) cost.small_order_fee = terms.small_order_fee;
  const Money charges = cost.shipping + cost.small_order_fee;
  cost.tax = share_of(terms.tax, terms.tax_on_shipping ? order_value + charges : order_value);
  cost.total = order_value + charges + cost.tax;
  return cost;
}

}  // namespace teetally
