#pragma once
// Prices that make the bound of a case high: a climb along its slopes. The numbers here are guesses in doubles; what
// counts is what OpenCase says of the whole numbers they are rounded to.
#include <vector>

#include "teetally/purchase/certify.h"

namespace teetally {

struct PriceGuess {
  std::vector<double> rates;                // by supplier: minor units for one of goods
  std::vector<std::vector<double>> shares;  // by bundle and share: minor units
};
PriceSplit rounded(const PriceGuess& guess, std::int64_t steps);
// Rates without charges; bundles' prices spread by what their contents cost loose.
PriceGuess first_guess(const Market& market);

// What the cheapest parts disagree on, averaged over the last steps of a climb: where to split.
struct Undecided {
  std::vector<std::vector<std::pair<std::int64_t, double>>> goods;  // by supplier: goods value, weight
  std::vector<std::int64_t> bought;                                 // by supplier: goods, at the best prices
  std::vector<double> bundles, bundle_spread;                       // by bundle: count, and how far apart
  std::vector<double> packs, pack_spread;                           // by pack
};

struct Climbed {
  PriceGuess guess;
  std::int64_t bound = 0;  // in steps
  Undecided undecided;
};
// Stops when the bound is above `enough` steps.
Climbed climb(const Market& market, const OpenCase& open, const PriceGuess& start, std::int64_t steps,
              std::int64_t enough, int rounds);

}  // namespace teetally
