#include "exhaustive/brute_force.h"

#include <algorithm>
#include <map>
#include <set>
#include <vector>

namespace teetally::test {
namespace {

constexpr std::int64_t kMostTries = 300'000;

// One thing that can be put into the basket: a pack, or a bundle in one certain form.
struct Thing {
  int shop = 0;
  const Pack* pack = nullptr;
  const Bundle* bundle = nullptr;
  std::int64_t price = 0;                             // bundles only
  std::vector<std::pair<int, std::int64_t>> content;  // item of the shop, pieces
  std::vector<std::int64_t> prices;                   // of so many; packs only
};

// Half a unit rounds up.
std::int64_t percent_of(std::int64_t ppm, std::int64_t amount) { return (2 * ppm * amount + 1'000'000) / 2'000'000; }

std::int64_t pack_price(const Pack& pack, std::int64_t n) {
  std::int64_t sum = 0, last = pack.prices[0].price.minor;
  for (std::int64_t k = 1; k <= n; ++k) {
    for (const PriceBreak& step : pack.prices) {
      if (step.from <= k) last = step.price.minor;
    }
    sum += last;
  }
  return pack.rule == BreakRule::incremental ? sum : last * n;
}

// Every form of a bundle: each content as it is, left out, or swapped.
std::vector<Thing> forms_of(int shop, const Bundle& bundle) {
  std::vector<Thing> forms{{shop, nullptr, &bundle, bundle.price.minor, {}, {}}};
  for (const BundleContent& content : bundle.contents) {
    std::vector<Thing> next;
    for (const Thing& form : forms) {
      next.push_back(form);
      next.back().content.emplace_back(content.item, content.count);
      if (content.leave_out) {
        next.push_back(form);
        next.back().price -= content.leave_out->minor;
      }
      for (const Swap& swap : content.swaps) {
        next.push_back(form);
        next.back().price += swap.extra.minor * content.count;
        next.back().content.emplace_back(swap.item, content.count);
      }
    }
    forms = std::move(next);
  }
  return forms;
}

class Search {
 public:
  Search(const OfferBook& book, const BuyLimits& limits) : book_(book), limits_(limits) {
    for (int s = 0; s < static_cast<int>(book.catalogs.size()); ++s) {
      if (allowed(book.catalogs[s]->id)) add_things(s);
    }
    for (const auto& catalog : book.catalogs) {
      most_discount_.push_back(0);
      for (const DiscountStep& step : catalog->terms.discounts) {
        most_discount_.back() = std::max(most_discount_.back(), step.percent.ppm);
      }
    }
    have_.resize(book.catalogs.size());
    for (std::size_t s = 0; s < have_.size(); ++s) have_[s].assign(book.catalogs[s]->items.size(), 0);
    goods_.assign(book.catalogs.size(), 0);
    count_.assign(book.catalogs.size(), 0);
    list_family_choices({});
  }

  BruteAnswer run() {
    put(0);
    return {best_, tries_ <= kMostTries};
  }

 private:
  bool allowed(const std::string& id) const {
    const auto has = [&](const std::vector<std::string>& words) {
      return std::count(words.begin(), words.end(), id) > 0;
    };
    return (limits_.only_suppliers.empty() || has(limits_.only_suppliers)) && !has(limits_.avoid_suppliers);
  }

  void add_things(int shop) {
    const Catalog& catalog = *book_.catalogs[shop];
    for (int i = 0; i < static_cast<int>(catalog.items.size()); ++i) {
      for (const Pack& pack : catalog.items[i].packs) {
        things_.push_back({shop, &pack, nullptr, 0, {{i, pack.count}}, {}});
        for (std::int64_t n = 0; n <= kMostCount; ++n) things_.back().prices.push_back(pack_price(pack, n));
      }
    }
    if (limits_.no_bundles) return;
    for (const Bundle& bundle : catalog.bundles) {
      for (Thing& form : forms_of(shop, bundle)) things_.push_back(std::move(form));
    }
  }

  void list_family_choices(std::vector<int> chosen) {
    if (chosen.size() == book_.systems.size()) return family_choices_.push_back(chosen);
    for (int f = 0; f < static_cast<int>(book_.systems[chosen.size()].families.size()); ++f) {
      std::vector<int> more = chosen;
      more.push_back(f);
      list_family_choices(more);
    }
  }

  void put(std::size_t t) {
    if (++tries_ > kMostTries || dearer_than_best()) return;
    if (t == things_.size()) return weigh();
    const Thing& thing = things_[t];
    for (std::int64_t n = 0; n <= kMostCount; ++n) {
      if (n > 0 && !may_buy(thing, n)) {
        if (thing.pack && n < thing.pack->minimum) continue;
        if (thing.pack && n % thing.pack->multiple != 0) continue;
        break;
      }
      const std::int64_t price = thing.pack ? thing.prices[n] : thing.price * n;
      change(thing, n, price);
      put(t + 1);
      const bool too_dear = dearer_than_best() && !thing.pack;
      change(thing, -n, -price);
      if (too_dear) break;
    }
  }

  bool may_buy(const Thing& thing, std::int64_t n) const {
    if (thing.bundle) {
      const auto bought = bundles_.find(thing.bundle);
      const std::int64_t have = bought == bundles_.end() ? 0 : bought->second;
      return !thing.bundle->stock || have + n <= *thing.bundle->stock;
    }
    return n >= thing.pack->minimum && n % thing.pack->multiple == 0 && (!thing.pack->stock || n <= *thing.pack->stock);
  }

  void change(const Thing& thing, std::int64_t n, std::int64_t price) {
    goods_[thing.shop] += price;
    count_[thing.shop] += n;
    if (thing.bundle) bundles_[thing.bundle] += n;
    for (const auto& [item, pieces] : thing.content) have_[thing.shop][item] += pieces * n;
  }

  // With the greatest discount on everything and nothing else to pay.
  bool dearer_than_best() const {
    if (!best_) return false;
    std::int64_t least = 0;
    for (std::size_t s = 0; s < goods_.size(); ++s) {
      least += goods_[s] - percent_of(most_discount_[s], goods_[s]);
    }
    return least > best_->cost;
  }

  void weigh() {
    BruteRank rank;
    for (std::size_t s = 0; s < goods_.size(); ++s) {
      if (count_[s] == 0) continue;
      const std::int64_t cost = order_cost(book_.catalogs[s]->terms, goods_[s]);
      if (cost < 0) return;
      rank.cost += cost;
      ++rank.suppliers;
      rank.packs += count_[s];
    }
    for (const std::vector<std::int64_t>& shop : have_) {
      for (std::int64_t pieces : shop) rank.pieces += pieces;
    }
    if (best_ && *best_ <= rank) return;
    if (limits_.most_suppliers && rank.suppliers > *limits_.most_suppliers) return;
    if (limits_.take_bundle && !has_wanted_bundle()) return;
    if (serves_all()) best_ = rank;
  }

  // -1: not delivered.
  static std::int64_t order_cost(const OrderingTerms& terms, std::int64_t goods) {
    std::int64_t percent = 0, charge = 0;
    for (const DiscountStep& step : terms.discounts) {
      if (goods >= step.from.minor) percent = step.percent.ppm;
    }
    const std::int64_t value = goods - percent_of(percent, goods);
    if (terms.minimum_order && value < terms.minimum_order->minor) return -1;
    for (const ShippingStep& step : terms.shipping) {
      if (value >= step.from.minor) charge = step.fee.minor;
    }
    if (terms.small_order_below && value < terms.small_order_below->minor) charge += terms.small_order_fee.minor;
    return value + charge + percent_of(terms.tax.ppm, value + (terms.tax_on_shipping ? charge : 0));
  }

  bool has_wanted_bundle() const {
    return std::any_of(bundles_.begin(), bundles_.end(),
                       [&](const auto& entry) { return entry.second > 0 && entry.first->sku == *limits_.take_bundle; });
  }

  bool serves_all() const {
    return std::any_of(family_choices_.begin(), family_choices_.end(),
                       [&](const std::vector<int>& families) { return serves_all(families); });
  }

  // Hall's condition: every set of needs finds enough among all items that serve any of them.
  bool serves_all(const std::vector<int>& families) const {
    const std::size_t needs = book_.takeoff.needs.size();
    for (unsigned set = 1; set < (1u << needs); ++set) {
      std::int64_t wanted = 0, found = 0;
      std::set<int> items;
      for (std::size_t n = 0; n < needs; ++n) {
        if (set & (1u << n)) wanted += book_.takeoff.needs[n].amount;
      }
      for (const Serving& serving : book_.servings) {
        if ((set & (1u << serving.need)) && fits(serving, families)) items.insert(serving.item);
      }
      for (int item : items) {
        found += have_[book_.items[item].catalog][book_.items[item].item];
      }
      if (found < wanted) return false;
    }
    return true;
  }

  static bool fits(const Serving& serving, const std::vector<int>& families) {
    for (const FitCondition& condition : serving.conditions) {
      const int family = families[condition.system];
      if (std::count(condition.families.begin(), condition.families.end(), family) == 0) return false;
    }
    return true;
  }

  const OfferBook& book_;
  const BuyLimits& limits_;
  std::vector<Thing> things_;
  std::vector<std::vector<int>> family_choices_;
  std::vector<std::int64_t> goods_, count_, most_discount_;
  std::map<const Bundle*, std::int64_t> bundles_;
  std::vector<std::vector<std::int64_t>> have_;  // by shop and item
  std::optional<BruteRank> best_;
  std::int64_t tries_ = 0;
};

}  // namespace

BruteAnswer brute_force(const OfferBook& book, const BuyLimits& limits) { return Search(book, limits).run(); }

BruteRank rank_of(const Purchase& purchase) {
  BruteRank rank{purchase.total.minor, static_cast<std::int64_t>(purchase.orders.size()), 0, 0};
  for (const SupplierOrder& order : purchase.orders) {
    for (const OrderLine& line : order.lines) rank.packs += line.count;
  }
  for (const Supply& supply : purchase.supplies) rank.pieces += supply.amount;
  for (const Leftover& left : purchase.leftovers) rank.pieces += left.amount;
  return rank;
}

}  // namespace teetally::test
