#pragma once
// The cheapest purchase by trying everything, written from the catalogs' words alone: it shares no code with
// the program, neither pricing nor matching of needs.
#include <cstdint>
#include <optional>

#include "teetally/purchase.h"

namespace teetally::test {

// Suppliers, packs and bundles, pieces bought.
struct BruteRank {
  std::int64_t cost = 0, suppliers = 0, packs = 0, pieces = 0;
  auto operator<=>(const BruteRank&) const = default;
};
struct BruteAnswer {
  std::optional<BruteRank> best;  // nothing: infeasible as far as counts of `kMostCount` reach
  bool finished = true;           // false when it gave up after too many tries
};
inline constexpr std::int64_t kMostCount = 60;

BruteAnswer brute_force(const OfferBook& book, const BuyLimits& limits);
// The rank of a purchase, counted from what it says.
BruteRank rank_of(const Purchase& purchase);

}  // namespace teetally::test
