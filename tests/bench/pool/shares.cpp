// Seconds that sharing takes for pools of 100, 10,000 and 100,000 plots, given the order and what each of 480 baskets
// costs alone: 22 needs, 12 suppliers, about 5,000 packs, from a seed.
//
//   pool_shares_bench
#include <fmt/format.h>

#include <random>

#include "teetally/base/stopwatch.h"
#include "teetally/quote/pool.h"
#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr int kNeeds = 22, kSuppliers = 12, kPacks = 19, kBaskets = 480;

int roll(std::mt19937& dice, int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); }

OfferBook many_offers(std::mt19937& dice) {
  HandMadeBook shops;
  std::vector<std::vector<int>> serving(kNeeds);
  for (int s = 0; s < kSuppliers; ++s) {
    OrderingTerms terms = free_from(roll(dice, 300, 900), roll(dice, 3000, 12'000));
    terms.tax = {10'000 * roll(dice, 0, 9)};
    add_discount(terms, roll(dice, 5000, 40'000), 10'000 * roll(dice, 1, 9));
    const int shop = shops.shop(terms);
    for (auto& items : serving) {
      std::vector<Pack> packs;
      for (int p = 0; p < kPacks; ++p) packs.push_back(pack_of(p + 1, (p + 1) * roll(dice, 40, 90)));
      items.push_back(shops.item(shop, packs));
    }
  }
  for (const auto& items : serving) shops.need(1, items);
  return shops.book();
}

void measure(int plots) {
  std::mt19937 dice(1);
  OfferBook book = many_offers(dice);
  std::vector<Basket> baskets(kBaskets);
  for (Basket& basket : baskets) {
    for (int n = 0; n < kNeeds; ++n) basket.push_back({n, roll(dice, 1, 30), {}});
  }
  std::vector<Sharer> sharers;
  std::vector<std::int64_t> times(kBaskets, 0);
  for (int p = 0; p < plots; ++p) {
    sharers.push_back({fmt::format("P{}", p), roll(dice, 0, kBaskets - 1)});
    ++times[sharers.back().basket];
  }
  book = book_for(book, baskets, times);
  std::int64_t dear = 0;  // an order of single pieces: no group spends more
  for (const Need& need : book.takeoff.needs) dear += need.amount * 100;
  const Stopwatch watch;
  const PriceList prices = price_list(book, BuyLimits(), Money{dear});
  const double listed = watch.seconds();
  std::vector<Alone> alone;
  std::int64_t total = 0;
  for (std::size_t b = 0; b < baskets.size(); ++b) {
    const Money value = listed_value(prices, baskets[b]);
    alone.push_back({value * 3, value * 3, Outcome::bought});
    total += value.minor * times[b];
  }
  const Shares shares = share_out(Money{total + total / 5000}, baskets, alone, sharers, prices, ShareRule::price_list);
  fmt::print("{} plots: price list {:.3f} s, with shares {:.3f} s, largest top-up {} of {} listed on average\n", plots,
             listed, watch.seconds(), shares.largest_top_up.minor, total / plots);
}

}  // namespace

int main() {
  for (const int plots : {100, 10'000, 100'000}) measure(plots);
  return 0;
}
