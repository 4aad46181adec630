#include "purchase/why/known_order.h"

namespace teetally {
namespace {

bool is_of(const OrderLine& line, const Offer& offer) {
  if (offer.bundle >= 0) return line.bundle == offer.bundle;
  return line.bundle < 0 && line.item == offer.item && line.pack == offer.pack;
}

}  // namespace

KnownOrder::KnownOrder(const OfferBook& book, const Purchase& purchase, const Offer& offer, std::int64_t at) {
  for (const SupplierOrder& order : purchase.orders) {
    if (order.catalog != offer.catalog) {
      others_ += order.cost.total.minor;
      continue;
    }
    terms_ = &book.catalogs[order.catalog]->terms;
    goods_ = order.cost.goods.minor;
    for (const OrderLine& line : order.lines) {
      if (!is_of(line, offer)) continue;
      count_ += line.count;
      for (const BundleChange& change : line.changes) leaves_out_ = leaves_out_ || change.swap < 0;
    }
    goods_ -= count_ * at;
  }
}

std::optional<std::int64_t> KnownOrder::cost_at(std::int64_t change) const {
  const std::int64_t goods = goods_ + count_ * change;
  if (terms_ == nullptr || goods < 0) return std::nullopt;
  const OrderCost cost = landed_cost(*terms_, Money{goods});
  if (terms_->minimum_order && cost.goods - cost.discount < *terms_->minimum_order) return std::nullopt;
  return others_ + cost.total.minor;
}

}  // namespace teetally
