#include "purchase/exact/ties.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace teetally {
namespace {

constexpr double kMostTie = 0x1p60, kMostSteps = 0x1p50;
constexpr double kLeastMinor = 1024;

double real(std::int64_t amount) { return static_cast<double>(amount); }

// Something that may be bought up to `most` times for at least `price` (minor units, discounts taken off).
struct Thing {
  double price = 0, most = 0;
  double packs = 0, pieces = 0, lengths = 0;
};

double least_price(const PackOffer& offer) {
  double least = real(kMostGoods);
  for (const LotPrice& price : offer.prices) {
    least = std::min(least, real(price.each) + (price.base < 0 ? real(price.base) / real(price.from) : 0));
  }
  return std::max(0.0, least);
}

double least_price(const BundleOffer& offer) {
  double least = real(offer.price);
  for (const BundlePart& part : offer.parts) {
    std::int64_t extra = 0;
    for (const BundleChoice& choice : part.choices) extra = std::min(extra, choice.extra);
    least += real(extra);
  }
  return std::max(0.0, least);
}

double kept(const SupplierTerms& terms) {
  std::int64_t most = 0;
  for (const OrderBracket& bracket : terms.brackets) most = std::max(most, bracket.discount_ppm);
  return 1 - real(most) / 1e6;
}

std::int64_t unit_of_lengths(const PurchaseProblem& problem) {
  std::int64_t unit = 0;
  for_each_content(problem, [&](int product, std::int64_t content) {
    if (product >= 0 && problem.products[product].by_length) unit = std::gcd(unit, content);
  });
  return std::max<std::int64_t>(unit, 1);
}

std::vector<Thing> things_of(const PurchaseProblem& problem, std::int64_t unit) {
  std::vector<Thing> things;
  const auto holds = [&](int product, std::int64_t content, Thing& thing) {
    if (product < 0) return;
    double& slot = problem.products[product].by_length ? thing.lengths : thing.pieces;
    slot = std::max(slot, real(content / (problem.products[product].by_length ? unit : 1)));
  };
  for (const PackOffer& offer : problem.packs) {
    Thing& thing = things.emplace_back();
    thing.price = least_price(offer) * kept(problem.suppliers[offer.supplier]);
    thing.most = real(offer.most);
    thing.packs = real(offer.packs_per_lot);
    holds(offer.product, offer.content, thing);
  }
  for (const BundleOffer& bundle : problem.bundles) {
    Thing all;
    for (const BundlePart& part : bundle.parts) {
      Thing one;
      holds(part.product, part.content, one);
      for (const BundleChoice& choice : part.choices) holds(choice.product, part.content, one);
      all.pieces += one.pieces;
      all.lengths += one.lengths;
    }
    all.price = least_price(bundle) * kept(problem.suppliers[bundle.supplier]);
    all.most = real(bundle.most);
    all.packs = 1;
    things.push_back(all);
  }
  return things;
}

// The most that can be had within a cost, as if everything could be bought in parts.
double most_within(std::vector<Thing> things, double Thing::*value, double cost) {
  std::erase_if(things, [&](const Thing& thing) { return thing.*value <= 0 || thing.most <= 0; });
  std::sort(things.begin(), things.end(),
            [&](const Thing& a, const Thing& b) { return a.*value * b.price > b.*value * a.price; });
  double sum = 0;
  for (const Thing& thing : things) {
    const double bought = thing.price * thing.most <= cost ? thing.most : cost / thing.price;
    sum += bought * thing.*value;
    cost -= std::min(cost, bought * thing.price);
  }
  return std::floor(sum * (1 + 1e-9)) + 1;
}

// At least what any sum of prices in the search comes to, in minor units.
double largest_amount(const PurchaseProblem& problem, std::int64_t most_cost) {
  double sum = most_cost < kMostGoods ? real(most_cost) : 0;
  for (const PackOffer& offer : problem.packs) {
    const std::int64_t lots = std::max(offer.prices.front().from, std::max(offer.needed, offer.prices.back().from));
    sum += real(price_of_lots(offer, lots).value_or(0));
  }
  for (const BundleOffer& bundle : problem.bundles) sum += real(bundle.price) * real(bundle.most);
  for (const SupplierTerms& terms : problem.suppliers) {
    std::int64_t most = 0;
    for (const OrderBracket& bracket : terms.brackets) most = std::max(most, bracket.from + bracket.charge);
    sum += real(most);
  }
  return sum + 1;
}

}  // namespace

TieWeights tie_weights(const PurchaseProblem& problem, std::int64_t most_cost) {
  TieWeights weights;
  weights.unit = unit_of_lengths(problem);
  const std::vector<Thing> things = things_of(problem, weights.unit);
  // A minor unit for each rounding of discount and tax.
  const double cost = real(most_cost) + 2 * real(static_cast<std::int64_t>(problem.suppliers.size()));
  const double lengths = most_within(things, &Thing::lengths, cost), pieces = most_within(things, &Thing::pieces, cost),
               packs = most_within(things, &Thing::packs, cost);
  const double piece = lengths + 1, pack = piece * (pieces + 1), supplier = pack * (packs + 1);
  const double most = supplier * (real(static_cast<std::int64_t>(problem.suppliers.size())) + 1);
  if (most >= kMostTie) return {};
  weights.length = 1;
  weights.piece = static_cast<std::int64_t>(lengths) + 1;
  weights.pack = weights.piece * (static_cast<std::int64_t>(pieces) + 1);
  weights.supplier = weights.pack * (static_cast<std::int64_t>(packs) + 1);
  weights.most = weights.supplier * (static_cast<std::int64_t>(problem.suppliers.size()) + 1);
  return weights;
}

double Measure::goods(std::int64_t amount, double rate) const {
  if (rate == 1) return real(amount) * minor;
  return std::floor(real(amount) * rate * minor * (1 - 0x1p-50));  // a double's rounding must not lift it
}

double Measure::goods_up(std::int64_t amount, double rate) const {
  if (rate == 1) return real(amount) * minor;
  return std::ceil(real(amount) * rate * minor * (1 + 0x1p-50));
}

double Measure::tie_down(std::int64_t amount) const {
  return tie == 1 ? real(amount) : std::floor(real(amount) * tie * (1 - 0x1p-50));
}
double Measure::tie_up(std::int64_t amount) const {
  return tie == 1 ? real(amount) : std::ceil(real(amount) * tie * (1 + 0x1p-50));
}

std::int64_t Measure::tie_of(const Product& product, std::int64_t amount) const {
  return product.by_length ? amount / ties.unit * ties.length : amount * ties.piece;
}

Worth Measure::worth(const Rank& rank) const {
  return {rank.cost, rank.suppliers * ties.supplier + rank.packs * ties.pack + rank.pieces * ties.piece +
                         rank.tenths_mm / ties.unit * ties.length};
}

double Measure::cheaper(const Worth& best) const {
  if (best.cost >= kMostGoods) return 0x1p54;
  return real(best.cost - 1) * minor + (ties.decide() ? minor - 1 : 0);
}

double Measure::reach(const Worth& best) const {
  if (best.cost >= kMostGoods || best.tie == 0) return cheaper(best);
  return real(best.cost) * minor + tie_up(best.tie - 1);
}

double Measure::whole(double steps) const { return std::ceil(steps / minor) * minor; }

std::int64_t Measure::cost_of(double steps) const {
  return std::max<std::int64_t>(
      0, static_cast<std::int64_t>(std::ceil((steps - (ties.decide() ? minor - 1 : 0)) / minor)));
}

Measure measure_of(const PurchaseProblem& problem, std::int64_t most_cost) {
  Measure measure;
  measure.ties = tie_weights(problem, most_cost);
  const double most = std::exp2(std::floor(std::log2(kMostSteps / largest_amount(problem, most_cost))));
  if (most < kLeastMinor) {
    measure.ties = {};
    measure.minor = 0;
    return measure;
  }
  if (!measure.ties.decide()) return measure;
  const double all = real(measure.ties.most);
  measure.minor = std::clamp(std::exp2(std::ceil(std::log2(all + 2))), kLeastMinor, most);
  measure.tie = std::min(1.0, (measure.minor - 2) / all);
  return measure;
}

Measure cost_alone(const Measure& measure) { return measure.minor > 0 ? Measure{} : measure; }

}  // namespace teetally
