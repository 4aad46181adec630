// The independent checker. It shares nothing with the engines or the abstract problem: catalogs, the book's
// servings and the purchase go in; every rule is tried anew in integers.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "purchase/audit_cuts.h"
#include "teetally/purchase.h"

namespace teetally {
namespace {

using ItemKey = std::pair<int, int>;  // catalog, item

bool lists(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool charges_nothing(const Catalog& catalog) {
  bool nothing = catalog.bundles.empty() && !catalog.terms.minimum_order && !catalog.terms.small_order_below;
  for (const ShippingStep& step : catalog.terms.shipping) nothing = nothing && step.fee == Money{};
  for (const Item& item : catalog.items) {
    for (const Pack& pack : item.packs) {
      for (const PriceBreak& step : pack.prices) nothing = nothing && step.price == Money{};
    }
  }
  return nothing;
}

class Audit {
 public:
  Audit(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase)
      : book_(book), limits_(limits), purchase_(purchase) {}

  std::vector<std::string> run() {
    for (const SupplierOrder& order : purchase_.orders) check_order(order);
    check_limits();
    check_supplies();
    check_needs();
    check_leftovers();
    check_total();
    if (wrong_.empty()) wrong_ = audit_cuts(book_, purchase_);
    return std::move(wrong_);
  }

 private:
  template <typename... Args>
  void wrong(fmt::format_string<Args...> text, Args&&... args) {
    wrong_.push_back(fmt::format(text, std::forward<Args>(args)...));
  }

  void check_order(const SupplierOrder& order) {
    if (order.catalog < 0 || order.catalog >= static_cast<int>(book_.catalogs.size())) {
      return wrong("an order names no catalog");
    }
    const Catalog& catalog = *book_.catalogs[order.catalog];
    if (!ordered_.insert(order.catalog).second) wrong("{} has two orders", catalog.id);
    if (order.lines.empty()) wrong("the order at {} is empty", catalog.id);
    Money goods;
    std::set<std::pair<ItemKey, int>> seen;
    for (const OrderLine& line : order.lines) {
      if (line.catalog != order.catalog) {
        wrong("a line at {} names another catalog", catalog.id);
        continue;
      }
      if (!seen.insert({{line.item, line.pack}, line.bundle}).second)
        wrong("{} has two lines of one offer", catalog.id);
      goods += line.bundle >= 0 ? check_bundle(catalog, line) : check_pack(catalog, line);
    }
    check_cost(catalog, goods, order.cost);
    total_ += order.cost.total;
  }

  Money check_pack(const Catalog& catalog, const OrderLine& line) {
    if (line.item < 0 || line.item >= static_cast<int>(catalog.items.size()) || line.pack < 0 ||
        line.pack >= static_cast<int>(catalog.items[line.item].packs.size()) || !line.changes.empty()) {
      wrong("a line at {} names no pack", catalog.id);
      return {};
    }
    const Pack& pack = catalog.items[line.item].packs[line.pack];
    if (line.count < 1) wrong("{} of {} are bought", line.count, pack.sku);
    if (line.count % pack.multiple != 0)
      wrong("{} of {} are not a multiple of {}", line.count, pack.sku, pack.multiple);
    if (line.count < pack.minimum) wrong("{} of {} are fewer than {}", line.count, pack.sku, pack.minimum);
    if (pack.stock && line.count > *pack.stock) wrong("{} of {}, {} in stock", line.count, pack.sku, *pack.stock);
    const std::int64_t content = pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count;
    bought_[{line.catalog, line.item}] += content * line.count;
    const Money goods = price_of(pack, line.count);
    if (goods != line.goods) wrong("{} of {} cost {}, not {}", line.count, pack.sku, goods.minor, line.goods.minor);
    return goods;
  }

  Money check_bundle(const Catalog& catalog, const OrderLine& line) {
    if (line.bundle >= static_cast<int>(catalog.bundles.size()) || line.item >= 0 || line.pack >= 0) {
      wrong("a line at {} names no bundle", catalog.id);
      return {};
    }
    const Bundle& bundle = catalog.bundles[line.bundle];
    if (line.count < 1) wrong("{} of {} are bought", line.count, bundle.sku);
    if (bundle.stock && line.count > *bundle.stock)
      wrong("{} of {}, {} on offer", line.count, bundle.sku, *bundle.stock);
    Money goods = bundle.price * line.count;
    std::vector<std::int64_t> unchanged(bundle.contents.size(), line.count);
    for (const BundleChange& change : line.changes) {
      if (change.content < 0 || change.content >= static_cast<int>(unchanged.size()) || change.times < 1) {
        wrong("a change of {} names no content", bundle.sku);
        continue;
      }
      unchanged[change.content] -= change.times;
      goods += price_of_change(line.catalog, bundle, change);
    }
    for (std::size_t c = 0; c < unchanged.size(); ++c) {
      if (unchanged[c] < 0) wrong("content {} of {} is changed more often than bought", c, bundle.sku);
      bought_[{line.catalog, bundle.contents[c].item}] += amount_of(bundle.contents[c]) * unchanged[c];
    }
    if (goods != line.goods) wrong("{} of {} cost {}, not {}", line.count, bundle.sku, goods.minor, line.goods.minor);
    return goods;
  }

  static std::int64_t amount_of(const BundleContent& content) {
    return content.length.tenths_mm > 0 ? content.length.tenths_mm : content.count;
  }

  Money price_of_change(int catalog, const Bundle& bundle, const BundleChange& change) {
    const BundleContent& content = bundle.contents[change.content];
    if (change.swap < 0) {
      if (!content.leave_out) wrong("content {} of {} cannot be left out", change.content, bundle.sku);
      return -(content.leave_out.value_or(Money{}) * change.times);
    }
    if (change.swap >= static_cast<int>(content.swaps.size())) {
      wrong("content {} of {} has no such swap", change.content, bundle.sku);
      return {};
    }
    const Swap& swap = content.swaps[change.swap];
    bought_[{catalog, swap.item}] += amount_of(content) * change.times;
    const std::int64_t units = content.length.tenths_mm > 0 ? 1 : content.count;
    return swap.extra * units * change.times;
  }

  void check_cost(const Catalog& catalog, Money goods, const OrderCost& stated) {
    const OrderCost cost = landed_cost(catalog.terms, goods);
    const Money value = cost.goods - cost.discount;
    if (cost.goods != stated.goods || cost.discount != stated.discount || cost.shipping != stated.shipping ||
        cost.small_order_fee != stated.small_order_fee || cost.tax != stated.tax || cost.total != stated.total) {
      wrong("the order at {} costs {}, not {}", catalog.id, cost.total.minor, stated.total.minor);
    }
    if (cost.total != value + cost.shipping + cost.small_order_fee + cost.tax) {
      wrong("the parts of the cost at {} do not add up", catalog.id);
    }
    if (catalog.terms.minimum_order && value < *catalog.terms.minimum_order) {
      wrong("{} does not deliver an order of {}", catalog.id, value.minor);
    }
  }

  void check_limits() {
    int suppliers = 0;
    bool wanted = false;
    for (const SupplierOrder& order : purchase_.orders) {
      if (!ordered_.contains(order.catalog)) continue;
      const Catalog& catalog = *book_.catalogs[order.catalog];
      if (!charges_nothing(catalog)) {
        ++suppliers;
        if (!limits_.only_suppliers.empty() && !lists(limits_.only_suppliers, catalog.id)) {
          wrong("{} is not among the allowed suppliers", catalog.id);
        }
        if (lists(limits_.avoid_suppliers, catalog.id)) wrong("{} was to be avoided", catalog.id);
      }
      for (const OrderLine& line : order.lines) {
        if (line.bundle < 0 || line.bundle >= static_cast<int>(catalog.bundles.size())) continue;
        if (limits_.no_bundles) wrong("a bundle is bought at {}", catalog.id);
        wanted = wanted || (limits_.take_bundle && *limits_.take_bundle == catalog.bundles[line.bundle].sku);
      }
    }
    if (limits_.most_suppliers && suppliers > *limits_.most_suppliers) {
      wrong("{} suppliers, {} allowed", suppliers, *limits_.most_suppliers);
    }
    if (limits_.take_bundle && !wanted) wrong("bundle {} is not bought", *limits_.take_bundle);
  }

  bool holds(const Serving& serving) const {
    return std::all_of(serving.conditions.begin(), serving.conditions.end(), [&](const FitCondition& condition) {
      const int family = purchase_.family_of_system[condition.system];
      return std::find(condition.families.begin(), condition.families.end(), family) != condition.families.end();
    });
  }

  void check_supplies() {
    served_.assign(book_.takeoff.needs.size(), 0);
    if (purchase_.family_of_system.size() != book_.systems.size()) return wrong("families of systems are missing");
    for (const Supply& supply : purchase_.supplies) {
      const bool known = std::any_of(book_.servings.begin(), book_.servings.end(), [&](const Serving& serving) {
        return serving.need == supply.need && serving.item == supply.item && holds(serving);
      });
      if (!known || supply.amount < 1) {
        wrong("item {} does not serve need {}", supply.item, supply.need);
        continue;
      }
      const BookItem& item = book_.items[supply.item];
      served_[supply.need] += supply.amount;
      used_[{item.catalog, item.item}] += supply.amount;
    }
  }

  void check_needs() {
    for (std::size_t n = 0; n < served_.size(); ++n) {
      const Need& need = book_.takeoff.needs[n];
      std::int64_t needed = std::max<std::int64_t>(0, need.amount);
      for (const JoinReason& join : purchase_.joins) needed += join.need == static_cast<int>(n) ? join.amount : 0;
      // What is cut may need more than the need's amount, where the site's own tubing leaves offcuts.
      const bool cut = need.by_length && !need.pieces.empty();
      if (cut ? served_[n] < needed : served_[n] != needed) {
        wrong("{} needs {}, {} served", need.id, needed, served_[n]);
      }
    }
  }

  void check_leftovers() {
    std::map<ItemKey, std::int64_t> left = bought_;
    for (const auto& [item, amount] : used_) left[item] -= amount;
    for (const Leftover& leftover : purchase_.leftovers) left[{leftover.catalog, leftover.item}] -= leftover.amount;
    for (const auto& [item, amount] : left) {
      if (amount == 0) continue;
      const std::string& sku = book_.catalogs[item.first]->items[item.second].sku;
      wrong("{} of {} are used and left over, {} bought", bought_[item] - amount, sku, bought_[item]);
    }
  }

  void check_total() {
    if (purchase_.total != total_) wrong("the total is {}, not {}", total_.minor, purchase_.total.minor);
    if (purchase_.proof.cost != total_) wrong("the proof is of {}, not {}", purchase_.proof.cost.minor, total_.minor);
    if (purchase_.proof.lower_bound > total_) wrong("the lower bound exceeds the total");
    if (purchase_.proof.proven && purchase_.proof.lower_bound != total_) wrong("proven, but the bound is lower");
  }

  const OfferBook& book_;
  const BuyLimits& limits_;
  const Purchase& purchase_;
  std::vector<std::string> wrong_;
  std::set<int> ordered_;
  std::map<ItemKey, std::int64_t> bought_, used_;
  std::vector<std::int64_t> served_;
  Money total_;
};

}  // namespace

std::vector<std::string> audit(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase) {
  if (purchase.outcome != Outcome::bought) return {};
  return Audit(book, limits, purchase).run();
}

}  // namespace teetally
