#pragma once
// OfferBooks written by hand: shops, items, packs, bundles and needs without files, readers or matching. Used by
// every test of the purchase.
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "teetally/purchase.h"

namespace teetally::test {

inline Pack pack_of(std::int64_t count, std::int64_t price) {
  Pack pack;
  pack.count = count;
  pack.prices = {{1, {price}}};
  return pack;
}
inline Pack coil_of(std::int64_t tenths_mm, std::int64_t price) {
  Pack pack;
  pack.length = {tenths_mm};
  pack.prices = {{1, {price}}};
  return pack;
}
inline Pack with_breaks(std::int64_t count, BreakRule rule,
                        const std::vector<std::pair<std::int64_t, std::int64_t>>& steps) {
  Pack pack;
  pack.count = count;
  pack.rule = rule;
  for (const auto& [from, price] : steps) pack.prices.push_back({from, {price}});
  return pack;
}

inline OrderingTerms shipping(const std::vector<std::pair<std::int64_t, std::int64_t>>& steps) {
  OrderingTerms terms;
  for (const auto& [from, fee] : steps) {
    terms.shipping.emplace_back();
    terms.shipping.back().from = {from};
    terms.shipping.back().fee = {fee};
  }
  return terms;
}
inline OrderingTerms flat_shipping(std::int64_t fee) { return shipping({{0, fee}}); }
inline OrderingTerms free_from(std::int64_t fee, std::int64_t limit) { return shipping({{0, fee}, {limit, 0}}); }
inline void add_discount(OrderingTerms& terms, std::int64_t from, std::int64_t ppm) {
  terms.discounts.emplace_back();
  terms.discounts.back().from = {from};
  terms.discounts.back().percent = {ppm};
}

struct Content {
  int item = -1;  // as answered by item()
  std::int64_t count = 0;
  std::int64_t leave_out = -1;                      // credit; negative: may not be left out
  std::vector<std::pair<int, std::int64_t>> swaps;  // item, extra
};

class HandMadeBook {
 public:
  // Each answers an index that the others take.
  int shop(const OrderingTerms& terms) {
    Catalog& catalog = catalogs_.emplace_back();
    catalog.id = "shop-" + std::to_string(catalogs_.size());
    catalog.name = catalog.id;
    catalog.terms = terms;
    return static_cast<int>(catalogs_.size()) - 1;
  }
  int item(int shop, std::vector<Pack> packs) {
    Catalog& catalog = catalogs_[shop];
    Item item;
    item.sku = catalog.id + "-item-" + std::to_string(catalog.items.size() + 1);
    item.name = item.sku;
    for (Pack& pack : packs) pack.sku = item.sku + "-" + std::to_string(&pack - packs.data() + 1);
    item.packs = std::move(packs);
    catalog.items.push_back(std::move(item));
    items_.push_back({shop, static_cast<int>(catalog.items.size()) - 1});
    return static_cast<int>(items_.size()) - 1;
  }
  int bundle(int shop, std::int64_t price, const std::vector<Content>& contents) {
    Bundle bundle;
    bundle.sku = catalogs_[shop].id + "-bundle-" + std::to_string(catalogs_[shop].bundles.size() + 1);
    bundle.name = bundle.sku;
    bundle.price = {price};
    for (const Content& content : contents) {
      BundleContent& made = bundle.contents.emplace_back();
      made.item = items_[content.item].item;
      made.count = content.count;
      if (content.leave_out >= 0) made.leave_out = Money{content.leave_out};
      for (const auto& [item, extra] : content.swaps) made.swaps.push_back({items_[item].item, {extra}});
    }
    catalogs_[shop].bundles.push_back(std::move(bundle));
    return static_cast<int>(catalogs_[shop].bundles.size()) - 1;
  }
  int need(std::int64_t amount, const std::vector<int>& items) {
    Need need;
    need.id = "N" + std::to_string(needs_.size() + 1);
    need.part.kind = "other";
    need.amount = amount;
    needs_.push_back(std::move(need));
    for (int item : items) serve(static_cast<int>(needs_.size()) - 1, item, {});
    return static_cast<int>(needs_.size()) - 1;
  }
  void serve(int need, int item, std::vector<FitCondition> conditions) {
    servings_.push_back({need, item, std::move(conditions)});
  }
  int system(int families) {
    SystemFamilies system;
    system.system = static_cast<int>(systems_.size());
    for (int f = 0; f < families; ++f) system.families.push_back({{100 + f}, {200 + f}});
    systems_.push_back(std::move(system));
    return static_cast<int>(systems_.size()) - 1;
  }
  Catalog& catalog(int shop) { return catalogs_[shop]; }
  Need& need_at(int need) { return needs_[need]; }
  std::size_t needs() const { return needs_.size(); }
  std::size_t shops() const { return catalogs_.size(); }

  OfferBook book() const {
    OfferBook book;
    book.takeoff.needs = needs_;
    for (const SystemFamilies& system : systems_) {
      book.takeoff.systems.push_back({"system " + std::to_string(system.system), "1/2 in"});
    }
    for (const Catalog& catalog : catalogs_) book.catalogs.push_back(std::make_shared<const Catalog>(catalog));
    book.items = items_;
    book.systems = systems_;
    book.servings = servings_;
    return book;
  }

 private:
  std::vector<Catalog> catalogs_;
  std::vector<BookItem> items_;
  std::vector<Need> needs_;
  std::vector<Serving> servings_;
  std::vector<SystemFamilies> systems_;
};

}  // namespace teetally::test
