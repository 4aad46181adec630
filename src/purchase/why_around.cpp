#include "purchase/why_around.h"

#include <algorithm>

#include "purchase/buy_with.h"

namespace teetally {
namespace {

bool serves(const OfferBook& book, int catalog, int item) {
  return std::any_of(book.servings.begin(), book.servings.end(), [&](const Serving& serving) {
    const BookItem& served = book.items[serving.item];
    return served.catalog == catalog && served.item == item;
  });
}

// What a part of the bundle is used as: itself, or the first swap that serves where it does not.
struct Use {
  int item = -1, swap = -1;
  Money price;  // what leaving it out would have saved, and the swap
};

Use use_of(const OfferBook& book, const Offer& offer, const BundleContent& content, bool may_leave_out) {
  Use use{content.item, -1, may_leave_out ? content.leave_out.value_or(Money{}) : Money{}};
  if (serves(book, offer.catalog, content.item)) return use;
  for (std::size_t s = 0; s < content.swaps.size(); ++s) {
    const Swap& swap = content.swaps[s];
    if (!serves(book, offer.catalog, swap.item)) continue;
    use.item = swap.item;
    use.swap = static_cast<int>(s);
    use.price += swap.extra * (content.length.tenths_mm > 0 ? 1 : content.count);
    return use;
  }
  return use;
}

Money less(Money from, Money by) { return std::max(Money{}, from - by); }

// The terms of an order that holds goods of this value already.
OrderingTerms terms_beyond(OrderingTerms terms, Money goods, bool pays_shipping) {
  const Money base = pays_shipping ? landed_cost(terms, goods).shipping : Money{};
  for (ShippingStep& step : terms.shipping) {
    step.from = less(step.from, goods);
    step.fee = less(step.fee, base);
  }
  while (terms.shipping.size() > 1 && terms.shipping[1].from == Money{}) terms.shipping.erase(terms.shipping.begin());
  for (DiscountStep& step : terms.discounts) step.from = less(step.from, goods);
  while (terms.discounts.size() > 1 && terms.discounts[1].from == Money{}) {
    terms.discounts.erase(terms.discounts.begin());
  }
  if (terms.minimum_order) terms.minimum_order = less(*terms.minimum_order, goods);
  if (terms.minimum_order == Money{}) terms.minimum_order.reset();
  if (terms.small_order_below) terms.small_order_below = less(*terms.small_order_below, goods);
  if (terms.small_order_below == Money{}) terms.small_order_below.reset();
  return terms;
}

class Around {
 public:
  Around(const OfferBook& book, const Offer& offer, bool used)
      : book_(book), offer_(offer), catalog_(std::make_shared<Catalog>(*book.catalogs[offer.catalog])) {
    const Bundle bundle = catalog_->bundles[offer.bundle];
    first_ = static_cast<int>(catalog_->items.size());
    may_leave_out_ = bundle.price >= credits_of(bundle);
    for (const BundleContent& content : bundle.contents) lay_out(content);
    const Money taken = bundle.price - (may_leave_out_ ? credits_of(bundle) : Money{});
    catalog_->terms = terms_beyond(catalog_->terms, taken, !used);
    book_.catalogs[offer.catalog] = catalog_;
  }
  const OfferBook& book() const { return book_; }

  // The order with the bundle in place of its parts.
  Purchase with_bundle(Purchase order) const {
    OrderLine line;
    line.catalog = offer_.catalog;
    line.bundle = offer_.bundle;
    line.count = 1;
    std::vector<bool> used(uses_.size(), false);
    SupplierOrder& at = order_of(order);
    std::erase_if(at.lines, [&](const OrderLine& part) {
      if (part.bundle == offer_.bundle) line.count += part.count;
      if (part.item >= first_) used[part.item - first_] = true;
      return part.bundle == offer_.bundle || part.item >= first_;
    });
    const Bundle& bundle = catalog_->bundles[offer_.bundle];
    for (std::size_t c = 0; c < uses_.size(); ++c) {
      const bool leave_out = !used[c] && may_leave_out_ && bundle.contents[c].leave_out;
      if (leave_out) line.changes.push_back({static_cast<int>(c), -1, 1});
      if (used[c] && uses_[c].swap >= 0) line.changes.push_back({static_cast<int>(c), uses_[c].swap, 1});
    }
    at.lines.push_back(std::move(line));
    return order;
  }

 private:
  SupplierOrder& order_of(Purchase& purchase) const {
    for (SupplierOrder& order : purchase.orders) {
      if (order.catalog == offer_.catalog) return order;
    }
    return purchase.orders.emplace_back(SupplierOrder{offer_.catalog, {}, {}});
  }

  void lay_out(const BundleContent& content) {
    const Use use = use_of(book_, offer_, content, may_leave_out_);
    Item item = catalog_->items[use.item];
    Pack pack;
    pack.sku = item.sku;
    pack.count = content.length.tenths_mm > 0 ? 1 : content.count;
    pack.length = content.length;
    pack.prices = {{1, use.price}};
    pack.stock = 1;
    item.packs = {std::move(pack)};
    const int sold = static_cast<int>(catalog_->items.size());
    catalog_->items.push_back(std::move(item));
    const int listed = static_cast<int>(book_.items.size());
    book_.items.push_back({offer_.catalog, sold});
    const std::vector<Serving> servings = book_.servings;
    for (Serving serving : servings) {
      const BookItem& served = book_.items[serving.item];
      if (served.catalog != offer_.catalog || served.item != use.item) continue;
      serving.item = listed;
      book_.servings.push_back(std::move(serving));
    }
    uses_.push_back(use);
  }

  OfferBook book_;
  Offer offer_;
  std::shared_ptr<Catalog> catalog_;
  std::vector<Use> uses_;  // by content
  int first_ = 0;          // item index of the first content laid out
  bool may_leave_out_ = true;
};

}  // namespace

std::optional<Purchase> order_around(const OfferBook& book, const BuyLimits& limits, const Offer& bundle,
                                     const Purchase& best) {
  const bool used = std::any_of(best.orders.begin(), best.orders.end(),
                                [&](const SupplierOrder& order) { return order.catalog == bundle.catalog; });
  const Around around(book, bundle, used);
  const FoundPurchase rest = buy_with(around.book(), limits, {{&best}, Money{}, false});
  if (rest.purchase.outcome != Outcome::bought) return std::nullopt;
  return around.with_bundle(rest.purchase);
}

}  // namespace teetally
