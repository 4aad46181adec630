#include "purchase/count_limits.h"

#include <algorithm>
#include <array>
#include <map>

#include "purchase/order_terms.h"
#include "purchase/plan.h"

namespace teetally {
namespace {

std::int64_t ceil_div(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

struct SupplierReach {
  std::int64_t saved = 0;      // S
  std::int64_t delivered = 0;  // M
  std::int64_t last = 0;       // L
};

SupplierReach reach_of(const SupplierTerms& terms) {
  return {most_saved_by_filler(terms), surely_delivered(terms.brackets), last_threshold(terms.brackets)};
}

// What all needs that the product can serve add up to.
std::vector<std::int64_t> usable_amounts(const PurchaseProblem& problem) {
  std::vector<std::int64_t> usable(problem.products.size(), 0);
  for (const ServingOption& serving : problem.servings) {
    usable[serving.product] += problem.needs[serving.need];
    if (!problem.site_coils.empty()) {
      for (const std::int64_t coil : problem.site_coils[serving.need]) usable[serving.product] += coil;
    }
    for (const JoinOffer& join : problem.joins) usable[serving.product] += join.need == serving.need ? join.most : 0;
  }
  return usable;
}

// Products that pieces are cut from.
std::vector<bool> products_to_cut(const PurchaseProblem& problem) {
  std::vector<bool> cut(problem.products.size(), false);
  for (const ServingOption& serving : problem.servings) {
    if (!problem.pieces.empty() && !problem.pieces[serving.need].empty()) cut[serving.product] = true;
  }
  return cut;
}

// Coils that are enough for pieces of this length in all, each no longer than a coil or joined. Cut one after
// another, any two coils that follow each other hold more than one coil's length; and a group of b joined
// coils, none of which could be spared, holds more than b - 1 of them and more than any one of them.
std::int64_t coils_for(std::int64_t length, std::int64_t coil) { return length <= coil ? 1 : 2 * length / coil + 1; }

// The most lots whose price is at most `price`; zero when even the fewest cost more.
std::int64_t lots_within(const PackOffer& offer, std::int64_t price) {
  for (std::size_t i = offer.prices.size(); i-- > 0;) {
    const LotPrice& step = offer.prices[i];
    const std::int64_t last = i + 1 < offer.prices.size() ? offer.prices[i + 1].from - 1 : offer.most;
    if (step.base + step.each * step.from > price) continue;
    if (step.each == 0) return last;
    return std::min(last, (price - step.base) / step.each);
  }
  return 0;
}

std::int64_t needed_lots(const PackOffer& offer, std::int64_t usable, bool cut) {
  if (usable == 0) return 0;
  const std::int64_t lots = cut ? ceil_div(coils_for(usable, offer.content / offer.packs_per_lot), offer.packs_per_lot)
                                : ceil_div(usable, offer.content);
  return std::max(offer.prices.front().from, lots);
}

std::int64_t most_lots(const PackOffer& offer, const SupplierReach& reach) {
  const std::int64_t needed = offer.needed;
  const LotPrice& last = offer.prices.back();
  const std::int64_t linear = std::max(needed, last.from);  // from here on, each lot costs last.each
  if (needed >= offer.most) return offer.most;
  if (last.each == 0) return std::min(offer.most, linear);
  std::int64_t by_saving = offer.most;
  if (reach.delivered == 0) {
    by_saving = lots_within(offer, *price_of_lots(offer, needed) + reach.saved);
  } else if (reach.delivered < kMostGoods) {
    const std::int64_t worth = ceil_div(std::max<std::int64_t>(0, reach.delivered - last.base), last.each);
    by_saving = std::max(linear, worth) + reach.saved / last.each;
  }
  const std::int64_t by_threshold = std::max(linear, lots_within(offer, reach.last + last.each - 1));
  return std::min({offer.most, by_threshold, std::max(needed, by_saving)});
}

struct BundleWorth {
  std::int64_t least = 0, most = 0;
};

BundleWorth worth_of(const BundleOffer& offer) {
  BundleWorth worth{offer.price, offer.price};
  for (const BundlePart& part : offer.parts) {
    std::int64_t least = 0, most = 0;
    for (const BundleChoice& choice : part.choices) {
      least = std::min(least, choice.extra);
      most = std::max(most, choice.extra);
    }
    worth.least += least;
    worth.most += most;
  }
  return worth;
}

std::int64_t needed_bundles(const BundleOffer& offer, const std::vector<std::int64_t>& usable,
                            const std::vector<bool>& cut) {
  std::int64_t needed = offer.least;
  const auto enough = [&](int product, std::int64_t content) {
    return cut[product] && usable[product] > 0 ? coils_for(usable[product], content)
                                               : ceil_div(usable[product], content);
  };
  for (const BundlePart& part : offer.parts) {
    std::int64_t sum = enough(part.product, part.content);
    for (const BundleChoice& choice : part.choices) {
      if (choice.product >= 0) sum += enough(choice.product, part.content);
    }
    needed = std::max(needed, sum);
  }
  return needed;
}

std::int64_t most_bundles(const BundleOffer& offer, std::int64_t needed, const SupplierReach& reach) {
  const BundleWorth worth = worth_of(offer);
  const std::int64_t least = std::max<std::int64_t>(1, worth.least);  // free ones can go without any effect
  std::int64_t by_saving = offer.most;
  if (reach.delivered < kMostGoods) {
    by_saving = std::max(needed, ceil_div(reach.delivered, least)) + reach.saved / least;
  }
  const std::int64_t by_threshold = std::max(needed, (reach.last + worth.most - 1) / least);
  return std::min({offer.most, by_saving, by_threshold});
}

// Offers of no use that can stand for one another: same supplier, same price, one step.
using TwinKey = std::array<std::int64_t, 5>;
std::map<TwinKey, std::vector<std::size_t>> twins_among(const std::vector<PackOffer>& packs) {
  std::map<TwinKey, std::vector<std::size_t>> twins;
  for (std::size_t i = 0; i < packs.size(); ++i) {
    const PackOffer& offer = packs[i];
    if (offer.needed > 0 || offer.prices.size() > 1) continue;
    const LotPrice& price = offer.prices.front();
    twins[{offer.supplier, price.from, price.base, price.each, offer.packs_per_lot}].push_back(i);
  }
  return twins;
}

// Fewer pieces first, then less tubing: the order of Rank.
bool leaves_less(const PurchaseProblem& problem, const PackOffer& a, const PackOffer& b) {
  const bool a_long = problem.products[a.product].by_length, b_long = problem.products[b.product].by_length;
  return a_long != b_long ? a_long : a.content < b.content;
}

// Of filler that costs the same, one offer is enough when no stock limits it: the one that leaves least over.
void drop_twins(PurchaseProblem& problem, const std::vector<SupplierReach>& reach) {
  std::vector<bool> dropped(problem.packs.size(), false);
  const auto stands_for = [&](std::size_t k, std::size_t i) {
    const PackOffer &mine = problem.packs[i], &other = problem.packs[k];
    if (i == k || dropped[k] || leaves_less(problem, mine, other)) return false;
    PackOffer unlimited = other;
    unlimited.most = kMostGoods;
    return other.most == most_lots(unlimited, reach[other.supplier]);
  };
  for (const auto& [key, twins] : twins_among(problem.packs)) {
    for (const std::size_t i : twins) {
      dropped[i] = std::any_of(twins.begin(), twins.end(), [&](std::size_t k) { return stands_for(k, i); });
    }
  }
  std::size_t at = 0;
  std::erase_if(problem.packs, [&](const PackOffer&) { return dropped[at++]; });
}

bool is_wanted(const PurchaseProblem& problem, std::size_t bundle) {
  return std::count(problem.wanted_bundles.begin(), problem.wanted_bundles.end(), static_cast<int>(bundle)) > 0;
}

}  // namespace

void limit_counts(PurchaseProblem& problem) {
  std::vector<SupplierReach> reach;
  for (const SupplierTerms& terms : problem.suppliers) reach.push_back(reach_of(terms));
  const std::vector<std::int64_t> usable = usable_amounts(problem);
  const std::vector<bool> cut = products_to_cut(problem);
  for (PackOffer& offer : problem.packs) {
    offer.needed = std::min(offer.most, needed_lots(offer, usable[offer.product], cut[offer.product]));
    offer.most = most_lots(offer, reach[offer.supplier]);
    while (offer.prices.size() > 1 && offer.prices.back().from > offer.most) offer.prices.pop_back();
  }
  std::erase_if(problem.packs, [](const PackOffer& offer) { return offer.most < offer.prices.front().from; });
  drop_twins(problem, reach);
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    BundleOffer& offer = problem.bundles[b];
    const std::int64_t needed =
        std::max<std::int64_t>(needed_bundles(offer, usable, cut), is_wanted(problem, b) ? 1 : 0);
    offer.most = most_bundles(offer, needed, reach[offer.supplier]);
  }
}

}  // namespace teetally
