#pragma once
// Prices that depend on counts and on the states of orders, moved so that the bound of a case rises: what a count or a
// state costs is shared out evenly among the parts it stands in, one after another (sequential reweighted message
// passing: Kolmogorov, IEEE TPAMI 28(10), 2006). Whole numbers all through: what is reached is what the parts say.
#include "purchase/certify/prices.h"
#include "teetally/verify/parts.h"

namespace teetally {

// Whether a case is small enough for prices of every count.
bool can_sweep(const OpenCase& open);
// Prices with a list for each count the case leaves open, and a rate for each stretch of goods.
PriceSplit listed_prices(const OpenCase& open, const PriceSplit& from, std::int64_t steps);

struct Swept {
  PriceSplit prices;
  std::int64_t bound = 0;
};
// Until the bound is above `enough`, or hardly rises.
Swept sweep(const OpenCase& open, PriceSplit prices, std::int64_t steps, std::int64_t enough, int rounds);

// Where counts and states are least decided: the most undecided first.
struct Wavering {
  Splits by = Splits::bundle;
  std::size_t which = 0;
  std::int64_t at = 0;  // the upper side starts here
  double spread = 0;
};
std::vector<Wavering> wavering(const OpenCase& open, const PriceSplit& prices, std::int64_t steps, std::int64_t enough);

}  // namespace teetally
