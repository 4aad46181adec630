#include "purchase/build_problem.h"

#include <algorithm>
#include <map>

#include "purchase/count_limits.h"
#include "purchase/cut/cutting.h"
#include "purchase/order_terms.h"

namespace teetally {
namespace {

bool lists(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool may_buy_from(const Catalog& catalog, const BuyLimits& limits) {
  if (is_free(catalog)) return true;
  if (!limits.only_suppliers.empty() && !lists(limits.only_suppliers, catalog.id)) return false;
  return !lists(limits.avoid_suppliers, catalog.id);
}

// The breaks of a pack in lots, from the fewest lots that may be bought.
std::vector<LotPrice> lot_prices(const Pack& pack, std::int64_t fewest) {
  std::vector<LotPrice> prices;
  std::int64_t base = 0;
  for (std::size_t i = 0; i < pack.prices.size(); ++i) {
    const PriceBreak& step = pack.prices[i];
    if (i > 0 && pack.rule == BreakRule::incremental) {
      base += (pack.prices[i - 1].price.minor - step.price.minor) * (step.from - 1);
    }
    const std::int64_t from = std::max(fewest, (step.from + pack.multiple - 1) / pack.multiple);
    if (!prices.empty() && prices.back().from == from) prices.pop_back();
    prices.push_back({from, base, step.price.minor * pack.multiple});
  }
  return prices;
}

// Reads one catalog after another into the problem; keeps which product stands for which item.
class Builder {
 public:
  Builder(const OfferBook& book, const BuyLimits& limits) : book_(book), limits_(limits) {}

  PurchaseProblem build() {
    problem_.most_suppliers = limits_.most_suppliers;
    problem_.bundle_wanted = limits_.take_bundle.has_value();
    for (std::size_t c = 0; c < book_.catalogs.size(); ++c) {
      if (may_buy_from(*book_.catalogs[c], limits_)) add_catalog(static_cast<int>(c));
    }
    for (const Need& need : book_.takeoff.needs) problem_.needs.push_back(need.amount);
    for (const SystemFamilies& system : book_.systems) {
      problem_.families.push_back(static_cast<int>(system.families.size()));
    }
    for (const Serving& serving : book_.servings) add_serving(serving);
    add_pieces();
    limit_counts(problem_);
    return std::move(problem_);
  }

 private:
  void add_catalog(int c) {
    const Catalog& catalog = *book_.catalogs[c];
    const int supplier = static_cast<int>(problem_.suppliers.size());
    SupplierTerms terms;
    terms.brackets = order_brackets(catalog.terms);
    terms.tax_ppm = catalog.terms.tax.ppm;
    terms.tax_on_charge = catalog.terms.tax_on_shipping;
    terms.counts = !is_free(catalog);
    terms.catalog = c;
    problem_.suppliers.push_back(std::move(terms));
    for (std::size_t i = 0; i < catalog.items.size(); ++i) {
      product_of_[{c, static_cast<int>(i)}] = static_cast<int>(problem_.products.size());
      problem_.products.push_back({c, static_cast<int>(i), -1, by_length(catalog.items[i])});
      for (std::size_t p = 0; p < catalog.items[i].packs.size(); ++p) add_pack(supplier, c, i, p);
    }
    for (std::size_t b = 0; b < catalog.bundles.size(); ++b) add_bundle(supplier, c, b);
  }

  static bool by_length(const Item& item) { return !item.packs.empty() && item.packs.front().length.tenths_mm > 0; }

  void add_pack(int supplier, int c, std::size_t i, std::size_t p) {
    const Pack& pack = book_.catalogs[c]->items[i].packs[p];
    PackOffer offer;
    offer.supplier = supplier;
    offer.product = product_of_.at({c, static_cast<int>(i)});
    offer.packs_per_lot = pack.multiple;
    offer.content = (pack.length.tenths_mm > 0 ? pack.length.tenths_mm : pack.count) * pack.multiple;
    const std::int64_t fewest = std::max<std::int64_t>(1, (pack.minimum + pack.multiple - 1) / pack.multiple);
    offer.prices = lot_prices(pack, fewest);
    offer.most = pack.stock ? *pack.stock / pack.multiple : kMostGoods;
    while (offer.prices.size() > 1 && offer.prices.back().from > offer.most) offer.prices.pop_back();
    offer.catalog = c;
    offer.item = static_cast<int>(i);
    offer.pack = static_cast<int>(p);
    if (offer.most >= fewest && offer.content > 0) problem_.packs.push_back(std::move(offer));
  }

  void add_bundle(int supplier, int c, std::size_t b) {
    const Bundle& bundle = book_.catalogs[c]->bundles[b];
    const bool wanted = limits_.take_bundle && *limits_.take_bundle == bundle.sku;
    if (limits_.no_bundles) return;
    BundleOffer offer;
    offer.supplier = supplier;
    offer.price = bundle.price.minor;
    offer.most = bundle.stock.value_or(kMostGoods);
    offer.catalog = c;
    offer.bundle = static_cast<int>(b);
    for (const BundleContent& content : bundle.contents) offer.parts.push_back(bundle_part(c, content));
    keep_price_positive(offer);
    if (wanted) problem_.wanted_bundles.push_back(static_cast<int>(problem_.bundles.size()));
    problem_.bundles.push_back(std::move(offer));
  }

  BundlePart bundle_part(int c, const BundleContent& content) {
    BundlePart part;
    part.product = product_of_.at({c, content.item});
    const bool length = content.length.tenths_mm > 0;
    if (length) problem_.products[part.product].by_length = true;
    part.content = length ? content.length.tenths_mm : content.count;
    const std::int64_t units = length ? 1 : content.count;
    if (content.leave_out) part.choices.push_back({-1, -content.leave_out->minor, -1});
    for (std::size_t s = 0; s < content.swaps.size(); ++s) {
      const Swap& swap = content.swaps[s];
      const int product = product_of_.at({c, swap.item});
      if (length) problem_.products[product].by_length = true;
      part.choices.push_back({product, swap.extra.minor * units, static_cast<int>(s)});
    }
    return part;
  }

  // Credits that add up to more than the bundle costs would make money of nothing: they are not offered.
  static void keep_price_positive(BundleOffer& offer) {
    std::int64_t credits = 0;
    for (const BundlePart& part : offer.parts) {
      for (const BundleChoice& choice : part.choices) credits += std::max<std::int64_t>(0, -choice.extra);
    }
    if (credits <= offer.price) return;
    for (BundlePart& part : offer.parts) {
      std::erase_if(part.choices, [](const BundleChoice& choice) { return choice.extra < 0; });
    }
  }

  void add_serving(const Serving& serving) {
    const BookItem& item = book_.items[serving.item];
    const auto product = product_of_.find({item.catalog, item.item});
    if (product == product_of_.end()) return;
    ServingOption option{serving.need, product->second, {}};
    for (const FitCondition& condition : serving.conditions) {
      FamilyCondition allowed{condition.system, std::vector<bool>(problem_.families[condition.system], false)};
      for (int family : condition.families) allowed.allowed[family] = true;
      if (condition.families.empty()) return;
      option.conditions.push_back(std::move(allowed));
    }
    problem_.products[product->second].book_item = serving.item;
    problem_.servings.push_back(std::move(option));
  }

  void add_pieces() {
    const Takeoff& takeoff = book_.takeoff;
    problem_.least_joined = takeoff.cutting.least_joined.tenths_mm;
    problem_.pieces.resize(takeoff.needs.size());
    problem_.site_coils.resize(takeoff.needs.size());
    problem_.join_of_need.assign(takeoff.needs.size(), -1);
    for (std::size_t n = 0; n < takeoff.needs.size(); ++n) {
      const Need& need = takeoff.needs[n];
      if (!need.by_length || need.amount <= 0 || need.pieces.empty()) continue;
      const std::vector<std::int64_t> lengths = cut_lengths(need);
      for (std::size_t p = 0; p < lengths.size(); ++p) {
        const NeededPiece& piece = need.pieces[p];
        if (lengths[p] > 0) {
          problem_.pieces[n].push_back({lengths[p], piece.may_join, piece.any_cut, static_cast<int>(p)});
        }
      }
      for (const Reason& reason : need.reasons) {
        if (reason.reason_class == ReasonClass::on_site) problem_.site_coils[n].push_back(-reason.amount);
      }
      if (n < book_.coupling_need.size()) problem_.join_of_need[n] = join_for(book_.coupling_need[n]);
    }
    for (std::size_t j = 0; j < problem_.joins.size(); ++j) problem_.joins[j].most = most_joins(static_cast<int>(j));
  }

  // Joins that take what serves this need; -1 when nothing can be bought for it.
  int join_for(int need) {
    const bool served = need >= 0 && std::any_of(problem_.servings.begin(), problem_.servings.end(),
                                                 [need](const ServingOption& s) { return s.need == need; });
    if (!served) return -1;
    for (std::size_t j = 0; j < problem_.joins.size(); ++j) {
      if (problem_.joins[j].need == need) return static_cast<int>(j);
    }
    problem_.joins.push_back({need, 0});
    return static_cast<int>(problem_.joins.size()) - 1;
  }

  // Of b coils joined, none of which could be spared, any b - 1 are shorter than what is cut from them.
  std::int64_t most_joins(int join) const {
    std::int64_t length = 0, shortest = kMostGoods;
    for (std::size_t n = 0; n < problem_.pieces.size(); ++n) {
      for (const CutPiece& piece : problem_.pieces[n]) length += piece.any_cut ? 0 : piece.length;
      for (const std::int64_t coil : problem_.site_coils[n]) shortest = std::min(shortest, coil);
    }
    std::vector<bool> joined(problem_.products.size(), false);
    for (const ServingOption& serving : problem_.servings) {
      if (problem_.join_of_need[serving.need] == join) joined[serving.product] = true;
    }
    const auto note = [&](int product, std::int64_t coil) {
      if (product >= 0 && joined[product]) shortest = std::min(shortest, coil);
    };
    for (const PackOffer& offer : problem_.packs) note(offer.product, offer.content / offer.packs_per_lot);
    for (const BundleOffer& offer : problem_.bundles) {
      for (const BundlePart& part : offer.parts) {
        note(part.product, part.content);
        for (const BundleChoice& choice : part.choices) note(choice.product, part.content);
      }
    }
    return length / std::max<std::int64_t>(1, shortest);
  }

  const OfferBook& book_;
  const BuyLimits& limits_;
  PurchaseProblem problem_;
  std::map<std::pair<int, int>, int> product_of_;
};

}  // namespace

bool is_free(const Catalog& catalog) {
  for (const Item& item : catalog.items) {
    for (const Pack& pack : item.packs) {
      for (const PriceBreak& step : pack.prices) {
        if (step.price.minor != 0) return false;
      }
    }
  }
  for (const ShippingStep& step : catalog.terms.shipping) {
    if (step.fee.minor != 0) return false;
  }
  return catalog.bundles.empty() && !catalog.terms.minimum_order && !catalog.terms.small_order_below;
}

PurchaseProblem build_problem(const OfferBook& book, const BuyLimits& limits) { return Builder(book, limits).build(); }

}  // namespace teetally
