#include "purchase/count_limits.h"

#include <algorithm>

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
  for (const ServingOption& serving : problem.servings) usable[serving.product] += problem.needs[serving.need];
  return usable;
}

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

std::int64_t most_lots(const PackOffer& offer, std::int64_t usable, const SupplierReach& reach) {
  const std::int64_t fewest = offer.prices.front().from;
  const std::int64_t needed = usable == 0 ? 0 : std::max(fewest, ceil_div(usable, offer.content));
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

std::int64_t needed_bundles(const BundleOffer& offer, const std::vector<std::int64_t>& usable) {
  std::int64_t needed = offer.least;
  for (const BundlePart& part : offer.parts) {
    std::int64_t sum = ceil_div(usable[part.product], part.content);
    for (const BundleChoice& choice : part.choices) {
      if (choice.product >= 0) sum += ceil_div(usable[choice.product], part.content);
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

bool is_wanted(const PurchaseProblem& problem, std::size_t bundle) {
  return std::count(problem.wanted_bundles.begin(), problem.wanted_bundles.end(), static_cast<int>(bundle)) > 0;
}

}  // namespace

void limit_counts(PurchaseProblem& problem) {
  std::vector<SupplierReach> reach;
  for (const SupplierTerms& terms : problem.suppliers) reach.push_back(reach_of(terms));
  const std::vector<std::int64_t> usable = usable_amounts(problem);
  for (PackOffer& offer : problem.packs) {
    offer.most = most_lots(offer, usable[offer.product], reach[offer.supplier]);
    while (offer.prices.size() > 1 && offer.prices.back().from > offer.most) offer.prices.pop_back();
  }
  std::erase_if(problem.packs, [](const PackOffer& offer) { return offer.most < offer.prices.front().from; });
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    BundleOffer& offer = problem.bundles[b];
    const std::int64_t needed = std::max<std::int64_t>(needed_bundles(offer, usable), is_wanted(problem, b) ? 1 : 0);
    offer.most = most_bundles(offer, needed, reach[offer.supplier]);
  }
}

}  // namespace teetally
