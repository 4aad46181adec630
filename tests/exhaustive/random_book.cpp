#include "exhaustive/random_book.h"

#include <random>

namespace teetally::test {
namespace {

class Generator {
 public:
  explicit Generator(unsigned seed) : random_(seed) {}

  RandomPurchase make() {
    const int needs = pick(1, 3);
    for (int n = 0; n < needs; ++n) made_.need(pick(1, 6), {});
    if (chance(40)) system_ = made_.system(pick(2, 3));
    const int shops = pick(1, 3);
    for (int s = 0; s < shops; ++s) add_shop(needs);
    return {std::move(made_), limits()};
  }

 private:
  // Not std::uniform_int_distribution: its numbers differ between libraries.
  int pick(int low, int high) { return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1)); }
  bool chance(int percent) { return pick(1, 100) <= percent; }

  OrderingTerms terms() {
    OrderingTerms terms;
    if (chance(75)) {
      terms = flat_shipping(pick(1, 25));
      if (chance(80)) add_step(terms, pick(20, 90), chance(70) ? 0 : pick(0, 12));
      if (chance(20)) add_step(terms, pick(91, 130), pick(0, 20));  // may rise again
    }
    if (chance(25)) terms.minimum_order = Money{pick(10, 70)};
    if (chance(25)) {
      terms.small_order_below = Money{pick(15, 80)};
      terms.small_order_fee = Money{pick(1, 15)};
    }
    if (chance(35)) {
      add_discount(terms, pick(10, 70), 10'000 * pick(1, 25) + 500 * pick(0, 9));
      if (chance(40)) add_discount(terms, pick(71, 110), 10'000 * pick(5, 40));
    }
    if (chance(50)) {
      static constexpr std::int64_t kTaxes[] = {82'500, 73'750, 190'000, 250'000, 500'000, 66'667};
      terms.tax = {kTaxes[pick(0, 5)]};
      terms.tax_on_shipping = chance(50);
    }
    return terms;
  }

  static void add_step(OrderingTerms& terms, std::int64_t from, std::int64_t fee) {
    terms.shipping.emplace_back();
    terms.shipping.back().from = {from};
    terms.shipping.back().fee = {fee};
  }

  Pack pack() {
    static constexpr int kSizes[] = {1, 1, 2, 3, 5};
    const int size = kSizes[pick(0, 4)];
    const int price = size * pick(3, 14) + pick(0, 5);
    Pack made = pack_of(size, price);
    if (chance(40)) {
      made.rule = chance(50) ? BreakRule::all_units : BreakRule::incremental;
      int from = 1, each = price;
      for (int steps = pick(1, 2); steps > 0; --steps) {
        from += pick(1, 4);
        each = std::max(3, each - pick(1, 1 + each / 2));
        made.prices.push_back({from, {each}});
      }
    }
    if (chance(30)) made.stock = pick(1, 8);
    if (chance(20)) made.multiple = pick(2, 3);
    if (chance(20)) made.minimum = pick(2, 4);
    return made;
  }

  void add_shop(int needs) {
    const int shop = made_.shop(terms());
    std::vector<int> items;
    for (int count = pick(1, 2); count > 0; --count) {
      std::vector<Pack> packs{pack()};
      if (chance(30)) packs.push_back(pack());
      items.push_back(made_.item(shop, std::move(packs)));
      if (!chance(12)) serve_some(items.back(), needs);  // else of no use but as filler
    }
    if (chance(20)) items.push_back(made_.item(shop, {}));  // in bundles only
    if (items.size() > 1 && made_.catalog(shop).items.back().packs.empty()) serve_some(items.back(), needs);
    if (chance(35)) add_bundle(shop, items);
  }

  void serve_some(int item, int needs) {
    const int need = pick(0, needs - 1);
    serve(need, item);
    if (chance(25) && needs > 1) serve((need + 1) % needs, item);
  }

  void serve(int need, int item) {
    std::vector<FitCondition> conditions;
    if (system_ >= 0 && chance(60)) {
      FitCondition& condition = conditions.emplace_back();
      condition.system = system_;
      condition.families.push_back(pick(0, 1));
      if (chance(20)) condition.families.push_back(1 - condition.families.front());
    }
    made_.serve(need, item, std::move(conditions));
  }

  void add_bundle(int shop, const std::vector<int>& items) {
    std::vector<Content> contents;
    int credit = 0;
    for (int item : items) {
      Content& content = contents.emplace_back();
      content.item = item;
      content.count = pick(1, 3);
      if (chance(30)) credit += static_cast<int>(content.leave_out = pick(0, 6));
      if (items.size() > 1 && chance(30)) {
        const int other = items[pick(0, static_cast<int>(items.size()) - 1)];
        if (other != item) content.swaps.push_back({other, pick(0, 3)});
      }
    }
    const int bundle = made_.bundle(shop, credit + pick(5, 40), contents);
    if (chance(40)) made_.catalog(shop).bundles[bundle].stock = pick(1, 3);
    last_bundle_ = made_.catalog(shop).bundles[bundle].sku;
  }

  BuyLimits limits() {
    BuyLimits limits;
    if (chance(15)) limits.most_suppliers = pick(1, 2);
    if (chance(8)) limits.only_suppliers = {"shop-1", "shop-2"};
    if (chance(8)) limits.avoid_suppliers = {"shop-3"};
    if (chance(8)) {
      limits.no_bundles = true;
    } else if (!last_bundle_.empty() && chance(15)) {
      limits.take_bundle = last_bundle_;
    }
    return limits;
  }

  std::mt19937 random_;
  HandMadeBook made_;
  int system_ = -1;
  std::string last_bundle_;
};

}  // namespace

RandomPurchase random_purchase(unsigned seed) { return Generator(seed).make(); }

}  // namespace teetally::test
