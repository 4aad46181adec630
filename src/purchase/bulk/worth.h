#pragma once
// What prices make of offers: the worth of a lot, and of each way to take a part of a bundle. For the bounds on large
// orders.
#include <cstdint>
#include <limits>
#include <vector>

#include "purchase/bulk/view.h"

namespace teetally {

// A sum of doubles that knows how far rounding can have raised it.
class CarefulSum {
 public:
  void add(double term);
  double least() const;

 private:
  double sum_ = 0, size_ = 0, terms_ = 0;
};

struct BulkPack {
  int pack = -1;
  double worth = 0;  // of a lot
};
// A part as it comes, or changed by a choice.
struct WayWorth {
  int product = -1;  // -1: left out
  std::int64_t content = 0;
  double worth = 0, extra = 0;
};
struct BulkBundle {
  int bundle = -1;
  double price = 0, most = 0;
  std::vector<std::vector<WayWorth>> parts;
};
struct BulkWorth {
  std::vector<std::vector<BulkPack>> packs;      // by supplier; only those worth anything
  std::vector<std::vector<BulkBundle>> bundles;  // by supplier
  std::vector<double> joins;                     // to rules, by join
};
BulkWorth worth_in_bulk(const BulkView& view, const BulkPrices& prices);

// The least that any lot of the offer costs, bought so that it is least.
double least_price_of_lot(const PackOffer& offer);
// The least of rate * price - worth * lots, and of the bundles alike.
double least_of(const PackOffer& offer, double worth, double rate);
double least_of(const BulkBundle& bundle, double rate);
// The dearest way to use a part, its extra price at this rate taken off.
double best_way(const std::vector<WayWorth>& ways, double rate);

// Where a concave function of one number is largest, nearly: by thirds.
struct Highest {
  double at = 0, value = -std::numeric_limits<double>::infinity();
};
template <typename Function>
Highest highest(Function function, double low, double high) {
  constexpr int kTrials = 40;
  Highest best;
  const auto tried = [&](double at) {
    const double value = function(at);
    if (value > best.value) best = {at, value};
    return value;
  };
  tried(low), tried(high);
  for (int i = 0; i < kTrials; ++i) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    const double at_a = tried(a), at_b = tried(b);
    (at_a < at_b ? low : high) = at_a < at_b ? a : b;
  }
  return best;
}

}  // namespace teetally
