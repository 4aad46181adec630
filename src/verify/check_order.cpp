#include "verify/check_order.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "teetally/verify/bound.h"

namespace teetally {
namespace {

using ItemKey = std::pair<int, int>;  // supplier, item

class OrderCheck {
 public:
  OrderCheck(const Certificate& certificate, const std::vector<const Catalog*>& catalogs, Diagnostics& diagnostics)
      : question_(certificate.question),
        order_(certificate.order),
        market_(open_market(certificate.question, catalogs)),
        diagnostics_(diagnostics) {}

  void run() {
    goods_.assign(market_.catalogs.size(), Money{});
    bought_from_.assign(market_.catalogs.size(), false);
    for (const StatedLine& line : order_.lines) check_line(line);
    check_limits();
    check_cost();
    check_uses();
  }

 private:
  template <typename... Args>
  void wrong(const Place& place, fmt::format_string<Args...> text, Args&&... args) {
    diagnostics_.error("verify/bad-order", place, fmt::format(text, std::forward<Args>(args)...));
  }

  void check_line(const StatedLine& line) {
    const auto supplier = static_cast<std::size_t>(line.supplier);
    const Catalog& catalog = market_.catalog(line.supplier);
    if (!market_.open[supplier]) wrong(line.place, "nothing was to be bought from {}", quoted(catalog.id));
    if (!seen_.insert({line.supplier, line.item, line.pack, line.bundle}).second) {
      wrong(line.place, "there are two lines of the same sku");
    }
    if (line.count < 1) return wrong(line.place, "the count is {}; expected 1 or more", line.count);
    bought_from_[supplier] = true;
    if (too_dear(line, catalog) || goods_[supplier].minor > kMostOfAll) {
      return wrong(line.place, "this is dearer than any order can be");
    }
    goods_[supplier] += line.bundle >= 0 ? check_bundle(line, catalog) : check_pack(line, catalog);
  }

  // Counts and prices whose product would leave the range of whole numbers.
  static bool too_dear(const StatedLine& line, const Catalog& catalog) {
    Money dearest{1};
    if (line.bundle >= 0) {
      const Bundle& bundle = catalog.bundles[static_cast<std::size_t>(line.bundle)];
      dearest += bundle.price;
      for (const BundleContent& content : bundle.contents) {
        for (const Swap& swap : content.swaps) dearest += swap.extra * std::max<std::int64_t>(1, content.count);
      }
    } else {
      const Item& item = catalog.items[static_cast<std::size_t>(line.item)];
      for (const PriceBreak& step : item.packs[static_cast<std::size_t>(line.pack)].prices) dearest += step.price;
    }
    return line.count > kMostOfAll / dearest.minor;
  }

  Money check_pack(const StatedLine& line, const Catalog& catalog) {
    const Pack& pack = catalog.items[static_cast<std::size_t>(line.item)].packs[static_cast<std::size_t>(line.pack)];
    if (line.count % pack.multiple != 0) {
      wrong(line.place, "{} of {} are bought; they are sold in multiples of {}", line.count, pack.sku, pack.multiple);
    }
    if (line.count < pack.minimum) {
      wrong(line.place, "{} of {} are bought; the fewest sold are {}", line.count, pack.sku, pack.minimum);
    }
    if (pack.stock && line.count > *pack.stock) {
      wrong(line.place, "{} of {} are bought; the supplier has {}", line.count, pack.sku, *pack.stock);
    }
    if (!line.changes.empty()) wrong(line.place, "only bundles can be changed");
    const std::int64_t content = pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count;
    bought_[{line.supplier, line.item}] += content * line.count;
    return price_of(pack, line.count);
  }

  Money check_bundle(const StatedLine& line, const Catalog& catalog) {
    const Bundle& bundle = catalog.bundles[static_cast<std::size_t>(line.bundle)];
    if (question_.no_bundles) wrong(line.place, "a bundle is bought, and none was to be");
    if (bundle.stock && line.count > *bundle.stock) {
      wrong(line.place, "{} of {} are bought; the supplier has {}", line.count, bundle.sku, *bundle.stock);
    }
    std::vector<std::int64_t> as_it_is(bundle.contents.size(), line.count);
    Money goods = bundle.price * line.count;
    for (const StatedChange& change : line.changes) {
      const auto at = static_cast<std::size_t>(change.content);
      if (change.content < 0 || at >= bundle.contents.size() || change.times < 1) {
        wrong(change.place, "{} has no such change", bundle.sku);
        continue;
      }
      as_it_is[at] -= change.times;
      goods += price_of_change(line, change, bundle.contents[at]);
    }
    for (std::size_t c = 0; c < bundle.contents.size(); ++c) {
      if (as_it_is[c] < 0) wrong(line.place, "a content of {} is changed more often than it is bought", bundle.sku);
      bought_[{line.supplier, bundle.contents[c].item}] += amount_of(bundle.contents[c]) * as_it_is[c];
    }
    return goods;
  }

  static std::int64_t amount_of(const BundleContent& content) {
    return content.length.tenths_mm > 0 ? content.length.tenths_mm : content.count;
  }

  Money price_of_change(const StatedLine& line, const StatedChange& change, const BundleContent& content) {
    if (change.swap < 0) {
      if (!content.leave_out) wrong(change.place, "this content cannot be left out");
      return -(content.leave_out.value_or(Money{}) * change.times);
    }
    if (change.swap >= static_cast<int>(content.swaps.size())) {
      wrong(change.place, "this content has no such swap");
      return {};
    }
    const Swap& swap = content.swaps[static_cast<std::size_t>(change.swap)];
    bought_[{line.supplier, swap.item}] += amount_of(content) * change.times;
    return swap.extra * (content.length.tenths_mm > 0 ? 1 : content.count) * change.times;
  }

  void check_limits() {
    std::int64_t suppliers = 0;
    for (std::size_t s = 0; s < bought_from_.size(); ++s) suppliers += bought_from_[s] && market_.counts[s] ? 1 : 0;
    if (question_.most_suppliers && suppliers > *question_.most_suppliers) {
      wrong(order_.place, "{} suppliers are used, at most {} were allowed", suppliers, *question_.most_suppliers);
    }
    const bool wanted = std::any_of(order_.lines.begin(), order_.lines.end(), [&](const StatedLine& line) {
      return line.bundle >= 0 && question_.take_bundle &&
             market_.catalog(line.supplier).bundles[static_cast<std::size_t>(line.bundle)].sku ==
                 *question_.take_bundle;
    });
    if (question_.take_bundle && !wanted) wrong(order_.place, "{} is not bought", quoted(*question_.take_bundle));
  }

  void check_cost() {
    Money total;
    for (std::size_t s = 0; s < goods_.size(); ++s) {
      if (!bought_from_[s]) continue;
      const OrderingTerms& terms = market_.catalogs[s]->terms;
      const OrderCost cost = landed_cost(terms, goods_[s]);
      const Money value = cost.goods - cost.discount;
      if (terms.minimum_order && value < *terms.minimum_order) {
        wrong(order_.place, "{} does not deliver an order of {} minor units; the smallest is {}",
              quoted(market_.catalogs[s]->id), value.minor, terms.minimum_order->minor);
      }
      total += cost.total;
    }
    if (total.minor == order_.cost) return;
    Diagnostic& error = diagnostics_.error(
        "verify/wrong-cost", order_.place,
        fmt::format("the order costs {} minor units by these catalogs, not {}", total.minor, order_.cost));
    error.help = "use the catalogs of the day the certificate was made, or buy again";
  }

  bool holds(const StatedServing& serving) const {
    return std::all_of(serving.conditions.begin(), serving.conditions.end(), [&](const StatedCondition& condition) {
      const int family = order_.families[static_cast<std::size_t>(condition.system)];
      return std::count(condition.families.begin(), condition.families.end(), family) > 0;
    });
  }

  // False, with an error, when a system has no family, or one that is not among its own.
  bool families_are_chosen() {
    bool chosen = order_.families.size() == question_.families.size();
    for (std::size_t k = 0; chosen && k < order_.families.size(); ++k) {
      const int most = question_.families[k] - 1;
      chosen = question_.families[k] == 0 || (order_.families[k] >= 0 && order_.families[k] <= most);
    }
    if (!chosen) wrong(order_.place, "the order does not choose one fit family for each tubing system");
    return chosen;
  }

  void check_uses() {
    if (!families_are_chosen()) return;
    std::map<ItemKey, std::int64_t> used;
    std::vector<std::int64_t> served(question_.needs.size(), 0);
    for (const StatedUse& use : order_.uses) {
      const bool serves = std::any_of(question_.servings.begin(), question_.servings.end(), [&](const auto& serving) {
        return serving.need == use.need && serving.supplier == use.supplier && serving.item == use.item &&
               holds(serving);
      });
      const std::string& id = question_.needs[static_cast<std::size_t>(use.need)].id;
      if (!serves || use.amount < 1) wrong(use.place, "this item does not serve {} in the fit family chosen", id);
      used[{use.supplier, use.item}] += use.amount;
      served[static_cast<std::size_t>(use.need)] += use.amount;
      if (used[{use.supplier, use.item}] > bought_[{use.supplier, use.item}]) {
        wrong(use.place, "{} are used, {} are bought", used[{use.supplier, use.item}],
              bought_[{use.supplier, use.item}]);
      }
    }
    for (std::size_t n = 0; n < served.size(); ++n) {
      const StatedNeed& need = question_.needs[n];
      if (served[n] < need.amount) wrong(order_.place, "{} needs {}, {} served", need.id, need.amount, served[n]);
    }
  }

  const OrderQuestion& question_;
  const StatedOrder& order_;
  const Market market_;
  Diagnostics& diagnostics_;
  std::set<std::tuple<int, int, int, int>> seen_;
  std::vector<Money> goods_;
  std::vector<bool> bought_from_;
  std::map<ItemKey, std::int64_t> bought_;
};

}  // namespace

void check_stated_order(const Certificate& certificate, const std::vector<const Catalog*>& catalogs,
                        Diagnostics& diagnostics) {
  OrderCheck(certificate, catalogs, diagnostics).run();
}

}  // namespace teetally
