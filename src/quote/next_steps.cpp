// How many plots more would reach a supplier's next discount, cheaper shipping or price break.
#include <algorithm>

#include "teetally/quote/hand_out.h"

namespace teetally {
namespace {

class Steps {
 public:
  explicit Steps(const PoolResult& result)
      : result_(result), plots_(std::max<std::int64_t>(1, static_cast<std::int64_t>(result.plots.size()))) {}

  std::vector<NextStep> found() {
    for (const SupplierOrder& order : result_.purchase.orders) {
      const OrderingTerms& terms = result_.book.catalogs[order.catalog]->terms;
      add_discount(order, terms);
      add_shipping(order, terms);
      for (const OrderLine& line : order.lines) add_break(line);
    }
    std::stable_sort(steps_.begin(), steps_.end(),
                     [](const NextStep& a, const NextStep& b) { return a.plots < b.plots; });
    return std::move(steps_);
  }

 private:
  // Plots that bring so much more, when those there brought `now`.
  std::int64_t plots_for(std::int64_t missing, std::int64_t now) const {
    return now <= 0 ? plots_ + 1 : (missing * plots_ + now - 1) / now;
  }
  void keep(const NextStep& step) {
    if (step.plots <= plots_) steps_.push_back(step);
  }

  void add_discount(const SupplierOrder& order, const OrderingTerms& terms) {
    for (const DiscountStep& discount : terms.discounts) {
      if (discount.from <= order.cost.goods) continue;
      NextStep step;
      step.catalog = order.catalog;
      step.missing = discount.from - order.cost.goods;
      step.discount = discount.percent;
      step.plots = plots_for(step.missing.minor, order.cost.goods.minor);
      return keep(step);
    }
  }

  void add_shipping(const SupplierOrder& order, const OrderingTerms& terms) {
    const Money value = order.cost.goods - order.cost.discount;
    for (const ShippingStep& shipping : terms.shipping) {
      if (shipping.from <= value || order.cost.shipping <= shipping.fee) continue;
      NextStep step;
      step.catalog = order.catalog;
      step.kind = NextStep::Kind::shipping;
      step.missing = shipping.from - value;
      step.fee = shipping.fee;
      step.plots = plots_for(step.missing.minor, value.minor);
      return keep(step);
    }
  }

  void add_break(const OrderLine& line) {
    if (line.bundle >= 0) return;
    for (const PriceBreak& next : result_.book.catalogs[line.catalog]->items[line.item].packs[line.pack].prices) {
      if (next.from <= line.count) continue;
      NextStep step;
      step.catalog = line.catalog;
      step.kind = NextStep::Kind::price_break;
      step.item = line.item;
      step.pack = line.pack;
      step.packs = next.from - line.count;
      step.price = next.price;
      step.plots = plots_for(step.packs, line.count);
      return keep(step);
    }
  }

  const PoolResult& result_;
  std::int64_t plots_;
  std::vector<NextStep> steps_;
};

}  // namespace

std::vector<NextStep> next_steps_of(const PoolResult& result) { return Steps(result).found(); }

}  // namespace teetally
