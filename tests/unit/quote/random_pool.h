#pragma once
// Random pools with their stand-alone costs and price list, small enough to buy for any group of their members.
#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "teetally/quote/pool.h"
#include "unit/purchase/hand_made_book.h"

namespace teetally::test {

struct MadePool {
  OfferBook book;
  std::vector<Basket> baskets;
  std::vector<Alone> alone;
  std::vector<Sharer> sharers;
  Money total;
  PriceList prices;
};

struct PoolShape {
  int baskets = 3;
  bool tubing = false;  // a fourth need: pieces that are cut from coils
  BuyLimits limits;
  // Whatever else a supplier may ask or offer: a smallest order, taxed shipping, packs in multiples and no fewer than
  // some, few on stock, contents swapped for others, items that serve two needs.
  bool all_terms = false;
};

// The order of everybody, and what each basket costs alone.
inline void buy_made(MadePool& made, const BuyLimits& limits = {}) {
  std::vector<std::int64_t> times(made.baskets.size(), 0);
  for (const Sharer& sharer : made.sharers) ++times[sharer.basket];
  made.book = book_for(made.book, made.baskets, times);
  made.total = buy(made.book, limits).total;
  made.alone = buy_alone(made.book, made.baskets, limits, 1);
  made.prices = price_list(made.book, limits, made.total);
}

// A further need of a basket: some pieces, none too long for the shortest coil.
inline Portion random_pieces(std::mt19937& dice, int need) {
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  Portion portion{need, 0, {}};
  for (int pieces = roll(1, 3); pieces > 0; --pieces) {
    portion.pieces.push_back({Length{roll(5, 60) * 1000}, {}});
    portion.amount += portion.pieces.back().length.tenths_mm;
  }
  return portion;
}

inline void add_all_terms(std::mt19937& dice, OrderingTerms& terms) {
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  if (roll(0, 2) == 0) terms.minimum_order = Money{roll(500, 2500)};
  terms.tax_on_shipping = roll(0, 1) == 1;
  if (roll(0, 2) == 0 && !terms.discounts.empty()) {
    add_discount(terms, terms.discounts.back().from.minor * 2, terms.discounts.back().percent.ppm + 30'000);
  }
}

// Singles stay as they are: whatever is wanted can be bought.
inline void add_all_terms(std::mt19937& dice, std::vector<Pack>& packs) {
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  for (std::size_t p = 1; p < packs.size(); ++p) {
    if (roll(0, 2) == 0) packs[p].minimum = roll(2, 4);
    if (roll(0, 2) == 0) packs[p].multiple = roll(2, 3);
    if (roll(0, 2) == 0) packs[p].stock = roll(1, 6);
  }
}

// Three needs, three suppliers with packs, breaks, bundles, fees, discounts and taxes.
inline MadePool random_pool(std::mt19937& dice, int members, const PoolShape& shape = {}) {
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  HandMadeBook shops;
  std::vector<std::vector<int>> items(3);
  std::vector<int> coils;
  for (int s = 0; s < 3; ++s) {
    OrderingTerms terms = free_from(roll(0, 600), roll(1000, 6000));
    if (roll(0, 1) == 1) terms.tax = {82'500};
    if (roll(0, 2) == 0) add_discount(terms, roll(1000, 5000), 10'000 * roll(1, 9));
    if (roll(0, 3) == 0) terms.small_order_below = Money{1500}, terms.small_order_fee = Money{roll(50, 250)};
    if (shape.all_terms) add_all_terms(dice, terms);
    const int shop = shops.shop(terms);
    std::vector<Content> contents;
    for (auto& serving : items) {
      const int price = roll(50, 300);
      std::vector<Pack> packs{pack_of(1, price), pack_of(roll(4, 12), price * roll(2, 5))};
      if (roll(0, 1) == 1) packs.push_back(with_breaks(1, BreakRule::all_units, {{1, price + 5}, {8, price - 20}}));
      if (roll(0, 2) == 0) packs.push_back(with_breaks(2, BreakRule::incremental, {{1, 2 * price}, {5, price}}));
      if (shape.all_terms) add_all_terms(dice, packs);
      serving.push_back(shops.item(shop, packs));
      contents.push_back({serving.back(), roll(1, 4), roll(0, 2) == 0 ? roll(5, 60) : -1, {}});
    }
    if (shape.all_terms) {
      const int any = shops.item(shop, {pack_of(1, roll(150, 400)), pack_of(6, roll(500, 1500))});
      items[0].push_back(any);
      items[1].push_back(any);
      contents[2].swaps.emplace_back(any, roll(0, 80));
    }
    shops.bundle(shop, roll(200, 900), contents);
    if (shape.tubing)
      coils.push_back(shops.item(shop, {coil_of(60'000, roll(300, 500)), coil_of(150'000, roll(600, 1100))}));
  }
  for (const auto& serving : items) shops.need(1, serving);
  if (shape.tubing) shops.need_at(shops.need(1, coils)).by_length = true;
  MadePool made;
  made.book = shops.book();
  for (int b = 0; b < shape.baskets; ++b) {
    Basket& basket = made.baskets.emplace_back();
    for (int n = 0; n < 3; ++n) {
      if (const int amount = roll(n == b % 3 ? 1 : 0, 9); amount > 0) basket.push_back({n, amount, {}});
    }
    if (shape.tubing && roll(0, 3) > 0) basket.push_back(random_pieces(dice, 3));
  }
  for (int m = 0; m < members; ++m) made.sharers.push_back({"m" + std::to_string(m), roll(0, shape.baskets - 1)});
  for (int b = 0; b < std::min(members, shape.baskets); ++b) made.sharers[b].basket = b;
  buy_made(made, shape.limits);
  return made;
}

inline Money paid_in_all(const Shares& shares) {
  Money sum;
  for (const Share& share : shares.shares) sum += share.paid;
  return sum;
}

}  // namespace teetally::test
