#include "bench/purchase/classes.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "purchase/count_limits.h"

namespace teetally::bench {
namespace {

constexpr int kPackSizes[] = {1, 5, 10, 25, 50, 100};
constexpr int kFamilies = 3;

// SplitMix64: tiny, and the same everywhere.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15ULL + 0x1234567) {}
  double unit() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }
  double between(double low, double high) { return low + (high - low) * unit(); }
  int whole(int low, int high) { return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1)); }
  int log_whole(int low, int high) {
    return std::clamp(static_cast<int>(std::exp(between(std::log(low), std::log(high + 1)))), low, high);
  }

 private:
  std::uint64_t next() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
  }
  std::uint64_t state_;
};

// One thing that can be bought: the type of one family, or of all.
struct Kind {
  int need = 0, family = -1;
  double cents = 0;
};

class Maker {
 public:
  Maker(const ProblemClass& of, unsigned seed, bool tiers, bool families)
      : of_(of), tiers_(tiers), families_(families), dice_(seed * 8 + (families ? 1 : 0)), tier_dice_(seed + 977) {}

  PurchaseProblem make() {
    if (families_) problem_.families = {kFamilies};
    for (int type = 0; type < of_.types; ++type) add_type(type);
    for (int s = 0; s < of_.suppliers; ++s) add_supplier(s);
    limit_counts(problem_);
    return problem_;
  }

 private:
  void add_type(int type) {
    problem_.needs.push_back(dice_.log_whole(of_.demand_low, of_.demand_high));
    const double cents = std::exp(dice_.between(std::log(15.0), std::log(1200.0)));
    const bool fitting = families_ && type < of_.types * 2 / 5;
    for (int f = 0; f < (fitting ? kFamilies : 1); ++f) {
      kinds_.push_back({type, fitting ? f : -1, fitting ? cents * dice_.between(0.85, 1.2) : cents});
    }
  }

  void add_supplier(int s) {
    constexpr int kFees[] = {495, 795, 995, 995, 1495, 1995}, kLimits[] = {4900, 7500, 9900, 9900, 14900, -1};
    const int fee = kFees[dice_.whole(0, 5)], limit = kLimits[dice_.whole(0, 5)];
    SupplierTerms terms;
    terms.catalog = s;
    terms.brackets.push_back({0, limit < 0 ? kMostGoods : limit - 1, 0, fee});
    if (limit >= 0) terms.brackets.push_back({limit, kMostGoods, 0, 0});
    problem_.suppliers.push_back(terms);
    const double level = dice_.between(0.92, 1.10);
    std::map<int, std::pair<int, double>> sold;  // by kind: product, cents a piece at best
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      const bool last_chance = s + 1 == of_.suppliers && !offered_[static_cast<int>(k)];
      if (dice_.unit() < 0.7 || last_chance) sold[static_cast<int>(k)] = sell(s, static_cast<int>(k), level);
    }
    for (int b = 0; b < of_.bundles; ++b) add_bundle(s, sold);
  }

  std::vector<int> pack_sizes() {
    std::vector<int> sizes(std::begin(kPackSizes), std::end(kPackSizes));
    if (of_.single) return {1};
    if (of_.ladder) return {1, 10, 25, 100};
    for (std::size_t i = 0; i + 1 < sizes.size(); ++i) {
      std::swap(sizes[i], sizes[dice_.whole(static_cast<int>(i), static_cast<int>(sizes.size()) - 1)]);
    }
    sizes.resize(dice_.whole(1, 4));
    std::sort(sizes.begin(), sizes.end());
    return sizes;
  }

  std::pair<int, double> sell(int s, int kind, double level) {
    offered_[kind] = true;
    const int product = static_cast<int>(problem_.products.size());
    problem_.products.push_back({s, product, product, false});
    ServingOption serving{kinds_[kind].need, product, {}};
    if (kinds_[kind].family >= 0) {
      std::vector<bool> allowed(kFamilies, false);
      allowed[kinds_[kind].family] = true;
      serving.conditions.push_back({0, allowed});
    }
    problem_.servings.push_back(serving);
    double each = kinds_[kind].cents * level * dice_.between(0.88, 1.14), best = 1e18;
    bool larger = false;
    for (int size : pack_sizes()) {
      if (larger) each *= 1 - dice_.between(0.02, 0.15);
      larger = true;
      PackOffer offer;
      offer.supplier = s;
      offer.product = product;
      offer.content = size;
      offer.most = kMostGoods;
      const auto price = std::max<std::int64_t>(1, std::llround(each * size));
      offer.prices.push_back({1, 0, price});
      if (tiers_ && tier_dice_.unit() < 0.4) add_tiers(offer, static_cast<double>(price));
      problem_.packs.push_back(offer);
      best = std::min(best, static_cast<double>(price) / size);
    }
    return {product, best};
  }

  static void add_tiers(PackOffer& offer, double price) {
    for (const auto& [from, keep] : {std::pair{3, 0.95}, std::pair{10, 0.88}}) {
      const std::int64_t lower = std::max<std::int64_t>(1, std::llround(price * keep));
      if (lower < offer.prices.back().each) offer.prices.push_back({from, 0, lower});
    }
  }

  void add_bundle(int s, const std::map<int, std::pair<int, double>>& sold) {
    const int family = families_ ? dice_.whole(0, kFamilies - 1) : -1;
    std::vector<int> open;
    for (const auto& [kind, product] : sold) {
      if (kinds_[kind].family < 0 || kinds_[kind].family == family) open.push_back(kind);
    }
    const int parts = std::min<int>(dice_.whole(of_.bundle_low, of_.bundle_high), static_cast<int>(open.size()));
    BundleOffer bundle;
    bundle.supplier = s;
    bundle.most = kMostGoods;
    double worth = 0;
    for (int i = 0; i < parts; ++i) {
      std::swap(open[i], open[dice_.whole(i, static_cast<int>(open.size()) - 1)]);
      const auto& [product, each] = sold.at(open[i]);
      const int amount = dice_.log_whole(1, of_.most_in_bundle);
      bundle.parts.push_back({product, amount, {}});
      worth += each * amount;
    }
    bundle.price = std::max<std::int64_t>(1, std::llround(worth * dice_.between(0.75, 0.95)));
    problem_.bundles.push_back(bundle);
  }

  const ProblemClass& of_;
  bool tiers_, families_;
  Dice dice_, tier_dice_;
  PurchaseProblem problem_;
  std::vector<Kind> kinds_;
  std::map<int, bool> offered_;
};

}  // namespace

const std::vector<ProblemClass>& problem_classes() {
  static const std::vector<ProblemClass> kClasses{
      {"H", 20, 3, 4, 1, 40, 12},
      {"L", 60, 6, 10, 1, 400, 25},
      {"C", 150, 12, 20, 10, 20'000, 50},
      {"X", 400, 25, 40, 10, 200'000, 50},
      {"catalog", 80, 6, 4, 1, 150, 12, 3, 6, true},
      {"lines", 800, 177, 0, 1, 1, 1, 8, 20, false, true},
  };
  return kClasses;
}

PurchaseProblem generate(const ProblemClass& of, unsigned seed, bool tiers, bool families) {
  return Maker(of, seed, tiers, families).make();
}

}  // namespace teetally::bench
