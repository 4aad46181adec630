#pragma once
// Small random pools, bought: for what comes after the purchase.
#include <random>
#include <string>

#include "teetally/quote/hand_out.h"
#include "unit/purchase/hand_made_book.h"

namespace teetally::test {

// Two needs from two shops with packs and a bundle whose contents may be left out or swapped.
inline PoolResult random_result(std::mt19937& dice) {
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  HandMadeBook shops;
  const int a = shops.shop(flat_shipping(roll(0, 400))), b = shops.shop(flat_shipping(roll(0, 400)));
  const int tee = shops.item(a, {pack_of(1, 90), pack_of(6, 6 * roll(50, 90))});
  const int cap = shops.item(a, {pack_of(4, 4 * roll(40, 90))});
  const int other_tee = shops.item(b, {pack_of(5, 5 * roll(50, 90))});
  const int other_cap = shops.item(b, {pack_of(1, 70)});
  shops.bundle(a, roll(200, 400), {{tee, 3, 50, {}}, {cap, 2, -1, {{tee, 10}}}});
  shops.need(1, {tee, other_tee});
  shops.need(1, {cap, other_cap});
  PoolResult result;
  for (int basket = 0; basket < 3; ++basket) {
    result.baskets.push_back({{0, roll(1, 5), {}}, {1, roll(1, 7), {}}});
  }
  const int plots = roll(3, 9);
  std::vector<std::int64_t> times(3, 0);
  for (int p = 0; p < plots; ++p) {
    Plot plot;
    plot.name = std::to_string(p);
    result.pool.plots.push_back(plot);
    const int basket = roll(0, 2);
    ++times[basket];
    result.plots.push_back({p, basket, {}, {}});
  }
  result.book = book_for(shops.book(), result.baskets, times);
  result.purchase = buy(result.book, BuyLimits());
  return result;
}

}  // namespace teetally::test
