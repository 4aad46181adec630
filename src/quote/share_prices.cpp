// The price list. Every supplier is taken at its lowest cost per minor unit of goods (the rate) that any order no
// dearer than the pool's can have, every pack at its lowest price per piece that any number of packs up to the
// pool's need can have. Both only rise when there is less to buy, so what holds for the pool holds for every group
// in it. Bundles are rows: what is in one is listed for no more than the bundle costs at the rate, whichever of
// its contents are left out or swapped. Stock limits, fit families and order multiples are left out, which only
// lowers the list. The list that values the pool highest is found in doubles; then it is rounded down and brought
// below every price in whole numbers.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "quote/wide.h"
#include "teetally/base/simplex.h"
#include "teetally/quote/shares.h"

namespace teetally {
namespace {

constexpr std::int64_t kBillion = 1'000'000'000;
constexpr double kMillion = 1e6;
constexpr double kNoise = 1e-3;  // of a billionth: a price that is whole but for the noise of doubles is whole
constexpr double kInfinite = std::numeric_limits<double>::infinity();

double real(std::int64_t n) { return static_cast<double>(n); }

bool lists(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// Goods values between two thresholds: there cost per goods falls all the way, so the upper end decides.
struct Stretch {
  double from = 0, to = kInfinite;
};

double charge_at(const OrderingTerms& terms, double value) {
  double charge = 0;
  for (const ShippingStep& step : terms.shipping) {
    if (real(step.from.minor) <= value) charge = real(step.fee.minor);
  }
  if (terms.small_order_below && value < real(terms.small_order_below->minor))
    charge += real(terms.small_order_fee.minor);
  return charge;
}

// Order values at which shipping or fees change, rising.
std::vector<double> value_thresholds(const OrderingTerms& terms) {
  std::vector<double> found{0};
  for (const ShippingStep& step : terms.shipping) found.push_back(real(step.from.minor));
  if (terms.small_order_below) found.push_back(real(terms.small_order_below->minor));
  if (terms.minimum_order) found.push_back(real(terms.minimum_order->minor));
  found.push_back(kInfinite);
  std::sort(found.begin(), found.end());
  found.erase(std::unique(found.begin(), found.end()), found.end());
  return found;
}

// Discounts with the goods values for which they hold.
std::vector<std::pair<Stretch, double>> discounts_of(const OrderingTerms& terms) {
  std::vector<std::pair<Stretch, double>> found{{{}, 0}};
  for (const DiscountStep& step : terms.discounts) {
    found.back().first.to = real(step.from.minor);
    found.push_back({{real(step.from.minor), kInfinite}, real(step.percent.ppm) / kMillion});
  }
  return found;
}

// The lowest landed cost per minor unit of goods, of orders of at most so many goods.
double lowest_rate(const OrderingTerms& terms, double most_goods) {
  const double tax = real(terms.tax.ppm) / kMillion;
  const std::vector<double> values = value_thresholds(terms);
  double least = kInfinite;
  for (const auto& [goods, discount] : discounts_of(terms)) {
    for (std::size_t v = 0; v + 1 < values.size(); ++v) {
      if (terms.minimum_order && values[v] < real(terms.minimum_order->minor)) continue;
      // Rounding may carry an order value over a threshold that it does not quite reach: one unit of room.
      const double low = std::max(goods.from, values[v] / (1 - discount) - 1);
      const double high = std::min({goods.to, values[v + 1] / (1 - discount) + 1, most_goods});
      if (low > high || high <= 0) continue;
      const double charge = charge_at(terms, values[v]);
      const double before_tax = (1 - discount) * high + charge;
      const double taxed = (1 - discount) * high + (terms.tax_on_shipping ? charge : 0);
      least = std::min(least, (before_tax + tax * taxed) / high);
    }
  }
  return least;
}

// What rounding can take off one order: half a unit too much discount, half a unit too little tax.
double rounding_of(const OrderingTerms& terms) {
  const double tax = real(terms.tax.ppm) / kMillion;
  return (terms.discounts.empty() ? 0 : 0.5 * (1 + tax)) + (terms.tax.ppm == 0 ? 0 : 0.5);
}

// The lowest price of one piece (or tenth of a millimetre) that is of use, over every number of packs.
double unit_price(const Pack& pack, double usable) {
  const double content = real(pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count);
  const auto whole = static_cast<std::int64_t>(usable / content);
  const auto enough = static_cast<std::int64_t>(std::ceil(usable / content));
  double least = kInfinite;
  const auto consider = [&](std::int64_t packs) {
    if (packs < std::max<std::int64_t>(1, pack.minimum)) return;
    least = std::min(least, real(price_of(pack, packs).minor) / std::min(real(packs) * content, usable));
  };
  consider(std::max<std::int64_t>(1, pack.minimum));
  consider(whole);
  consider(enough);
  for (const PriceBreak& step : pack.prices) {
    consider(step.from);
    consider(step.from - 1);
  }
  return least;
}

std::int64_t content_of(const BundleContent& content) {
  return content.length.tenths_mm > 0 ? content.length.tenths_mm : content.count;
}

// One thing a bundle's content may be: an item and what it adds to the bundle's price.
struct Choice {
  int item = -1;  // index into the catalog; -1: left out
  std::int64_t extra = 0;
};
std::vector<Choice> choices_of(const Bundle& bundle, const BundleContent& content) {
  std::int64_t credits = 0;
  for (const BundleContent& each : bundle.contents) credits += each.leave_out ? each.leave_out->minor : 0;
  std::vector<Choice> found{{content.item, 0}};
  // Credits above the bundle's price are not offered; see the purchase.
  if (content.leave_out && credits <= bundle.price.minor) found.push_back({-1, -content.leave_out->minor});
  const std::int64_t units = content.length.tenths_mm > 0 ? 1 : content.count;
  for (const Swap& swap : content.swaps) found.push_back({swap.item, swap.extra.minor * units});
  return found;
}

class Pricing {
 public:
  Pricing(const OfferBook& book, const BuyLimits& limits, Money cost) : book_(book) {
    for (const Serving& serving : book.servings) {
      const BookItem& item = book.items[serving.item];
      std::vector<int>& needs = serves_[{item.catalog, item.item}];
      if (std::find(needs.begin(), needs.end(), serving.need) == needs.end()) needs.push_back(serving.need);
    }
    for (std::size_t c = 0; c < book.catalogs.size(); ++c) {
      const Catalog& catalog = *book.catalogs[c];
      if (catalog.id == kOnHandId || lists(limits.avoid_suppliers, catalog.id)) continue;
      if (!limits.only_suppliers.empty() && !lists(limits.only_suppliers, catalog.id)) continue;
      const double most_discount = catalog.terms.discounts.empty() ? 0 : discounts_of(catalog.terms).back().second;
      const double rate = lowest_rate(catalog.terms, real(cost.minor) / (1 - most_discount) + 2);
      if (rate < kInfinite) sources_.push_back({static_cast<int>(c), rate, !limits.no_bundles});
      rounding_ += rounding_of(catalog.terms);
    }
  }

  PriceList list() {
    limits_.assign(book_.takeoff.needs.size(), kInfinite);
    for (const Source& source : sources_) limit_by_packs(source);
    program_.gains.assign(limits_.size(), 1);
    for (std::size_t n = 0; n < limits_.size(); ++n) {
      // A need that comes in bundles only is limited by them.
      if (limits_[n] < kInfinite && amount(n) > 0)
        program_.rows.push_back({{{static_cast<int>(n), 1}}, limits_[n] * amount(n)});
    }
    for (const Source& source : sources_) limit_by_bundles(source);
    keep_limited();
    const LinearAnswer answer = maximise(program_);
    PriceList list;
    for (std::size_t n = 0; n < limits_.size(); ++n) {
      // Couplings that only joins may ask for are listed for nothing, which is never too much.
      const double each = amount(n) > 0 ? std::min(answer.x[n] / amount(n), limits_[n]) : 0;
      list.nanos.push_back(std::max<std::int64_t>(0, static_cast<std::int64_t>(std::floor(each * 1e9 + kNoise))));
      rounding_ += kNoise * 1e-9 * amount(n);
    }
    for (const Source& source : sources_) bring_below_bundles(source, list.nanos);
    list.rounding = {static_cast<std::int64_t>(std::floor(rounding_))};
    return list;
  }

 private:
  struct Source {
    int catalog = -1;
    double rate = 1;
    bool bundles = true;
  };

  double amount(std::size_t need) const { return real(book_.takeoff.needs[need].amount); }
  const Catalog& catalog_of(const Source& source) const { return *book_.catalogs[source.catalog]; }
  const std::vector<int>& needs_of(int catalog, int item) const {
    static const std::vector<int> kNone;
    const auto found = serves_.find({catalog, item});
    return found == serves_.end() ? kNone : found->second;
  }
  double usable(const std::vector<int>& needs) const {
    double sum = 0;
    for (const int need : needs) sum += amount(static_cast<std::size_t>(need));
    return sum;
  }

  void limit_by_packs(const Source& source) {
    const Catalog& catalog = catalog_of(source);
    for (std::size_t i = 0; i < catalog.items.size(); ++i) {
      const std::vector<int>& needs = needs_of(source.catalog, static_cast<int>(i));
      if (needs.empty()) continue;
      for (const Pack& pack : catalog.items[i].packs) {
        if (pack.stock && *pack.stock == 0) continue;
        if (usable(needs) <= 0) continue;
        const double each = source.rate * unit_price(pack, usable(needs));
        for (const int need : needs) limits_[need] = std::min(limits_[need], each);
      }
    }
  }

  // The content of a bundle that can be of use, as so much of a need's whole value.
  LinearTerms value_terms(int catalog, const Choice& choice, std::int64_t content, int need) const {
    const double most = usable(needs_of(catalog, choice.item));
    const double wanted = amount(static_cast<std::size_t>(need));
    return {{need, wanted > 0 ? std::min(real(content), most) / wanted : 0}};
  }

  void limit_by_bundles(const Source& source) {
    if (!source.bundles) return;
    for (const Bundle& bundle : catalog_of(source).bundles) {
      if (bundle.stock && *bundle.stock == 0) continue;
      LinearProgram::Row whole{{}, source.rate * real(bundle.price.minor)};
      for (const BundleContent& content : bundle.contents) add_content(source, bundle, content, whole);
      if (!whole.terms.empty()) program_.rows.push_back(std::move(whole));
    }
  }

  void add_content(const Source& source, const Bundle& bundle, const BundleContent& content,
                   LinearProgram::Row& whole) {
    const std::vector<Choice> choices = choices_of(bundle, content);
    const std::vector<int>& plain = needs_of(source.catalog, content.item);
    if (choices.size() == 1 && plain.size() <= 1) {
      for (const int need : plain) {
        for (const auto& term : value_terms(source.catalog, choices[0], content_of(content), need)) {
          whole.terms.push_back(term);
        }
      }
      return;
    }
    // A column for the worth of the content, whatever becomes of it, above what leaving it out brings.
    std::int64_t credit = 0;
    for (const Choice& choice : choices) credit = std::max(credit, -choice.extra);
    const int worth = static_cast<int>(program_.gains.size());
    program_.gains.push_back(0);
    whole.terms.emplace_back(worth, 1);
    whole.most -= source.rate * real(credit);
    for (const Choice& choice : choices) {
      if (choice.item < 0) continue;
      for (const int need : needs_of(source.catalog, choice.item)) {
        LinearTerms terms = value_terms(source.catalog, choice, content_of(content), need);
        terms.emplace_back(worth, -1);
        program_.rows.push_back({std::move(terms), source.rate * real(choice.extra + credit)});
      }
    }
  }

  // Every need and every worth must be limited by some row; a need that nothing serves is worth nothing.
  void keep_limited() {
    std::vector<bool> limited(program_.gains.size(), false);
    for (LinearProgram::Row& row : program_.rows) {
      row.most = std::max(0.0, row.most);
      for (const auto& [column, each] : row.terms) {
        if (each > 0) limited[column] = true;
      }
    }
    for (std::size_t c = 0; c < limited.size(); ++c) {
      if (!limited[c]) program_.rows.push_back({{{static_cast<int>(c), 1}}, 0});
    }
  }

  // What the bundle brings is listed for no more than it costs: in whole numbers, and lowered where it is.
  void bring_below_bundles(const Source& source, std::vector<std::int64_t>& nanos) const {
    if (!source.bundles) return;
    for (const Bundle& bundle : catalog_of(source).bundles) {
      const auto room = static_cast<std::int64_t>(source.rate * kBillion);
      Wide worth = 0;
      std::vector<int> touched;
      for (const BundleContent& content : bundle.contents) {
        Wide best = 0;
        for (const Choice& choice : choices_of(bundle, content)) {
          best = std::max(best, Wide{-choice.extra} * room);
          const double most = choice.item < 0 ? 0 : usable(needs_of(source.catalog, choice.item));
          for (const int need : needs_of(source.catalog, choice.item)) {
            const auto useful = std::min(content_of(content), static_cast<std::int64_t>(most));
            best = std::max(best, Wide{nanos[need]} * useful - Wide{choice.extra} * room);
            touched.push_back(need);
          }
        }
        worth += best;
      }
      const Wide price = Wide{bundle.price.minor} * room;
      if (worth <= price) continue;
      const double factor = std::max(0.0, 1 - static_cast<double>(worth - price) / static_cast<double>(worth) - 1e-12);
      std::sort(touched.begin(), touched.end());
      touched.erase(std::unique(touched.begin(), touched.end()), touched.end());
      for (const int need : touched) nanos[need] = static_cast<std::int64_t>(real(nanos[need]) * factor);
    }
  }

  const OfferBook& book_;
  std::map<std::pair<int, int>, std::vector<int>> serves_;  // by catalog and item
  std::vector<Source> sources_;
  std::vector<double> limits_;  // by need: the lowest price per unit of any pack
  LinearProgram program_;
  double rounding_ = 0;
};

}  // namespace

PriceList price_list(const OfferBook& book, const BuyLimits& limits, Money cost) {
  if (book.takeoff.needs.empty()) return {};
  return Pricing(book, limits, cost).list();
}

Money listed_value(const PriceList& prices, const Basket& basket) {
  Wide sum = 0;
  for (const Portion& portion : basket) sum += Wide{prices.nanos[portion.need]} * portion.amount;
  return {static_cast<std::int64_t>(sum / kBillion)};
}

}  // namespace teetally
