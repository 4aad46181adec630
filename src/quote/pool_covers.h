#pragma once
// Which amounts come to the same when they are bought. What is sold comes in packs, so an amount may as well be the
// least sum of packs that reaches it: with coils of 50 and 100 ft, 55 ft of tubing is as good as 100. Baskets that are
// equal in that are bought from the same orders, but for how tubing is cut.
#include <cstdint>
#include <map>
#include <utility>
#include <vector>

#include "teetally/quote/pool.h"

namespace teetally {

class Covers {
 public:
  explicit Covers(const OfferBook& pool);

  // By need: the least sum that reaches what the basket wants; the amount itself where packs serve several needs.
  std::vector<std::int64_t> of(const Basket& basket);

 private:
  std::int64_t least_sum(int need, std::int64_t amount);

  std::vector<std::vector<std::int64_t>> contents_;  // by need: rising; empty where the amount stays as it is
  std::map<std::pair<int, std::int64_t>, std::int64_t> known_;
};

}  // namespace teetally
