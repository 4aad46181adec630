// Cutting inside the purchase: published one-dimensional cases, joins, and every tiny case against brute force.
#include <boost/test/unit_test.hpp>
#include <functional>
#include <map>
#include <random>

#include "places.h"
#include "purchase/cut/task.h"
#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr int kTinyCuttings = 1500 / TEETALLY_EVERY;

using Pieces = std::vector<std::pair<std::int64_t, int>>;          // length, how many
using Coils = std::vector<std::pair<std::int64_t, std::int64_t>>;  // length, price

struct Cutting {
  Pieces pieces;
  Coils coils;
  std::int64_t coupling = -1;  // price; negative: nothing may be joined
};

OfferBook book_of(const Cutting& asked) {
  HandMadeBook made;
  const int shop = made.shop({});
  std::vector<Pack> packs;
  for (const auto& [length, price] : asked.coils) packs.push_back(coil_of(length, price));
  const int tubing = made.need(0, {made.item(shop, packs)});
  Need& need = made.need_at(tubing);
  need.by_length = true;
  for (const auto& [length, count] : asked.pieces) {
    for (int i = 0; i < count; ++i) need.pieces.push_back({{length}, "run", asked.coupling >= 0});
    need.amount += length * count;
  }
  if (asked.coupling >= 0) made.need(0, {made.item(shop, {pack_of(1, asked.coupling)})});
  OfferBook book = made.book();
  book.coupling_need = {asked.coupling >= 0 ? 1 : -1, -1};
  book.takeoff.cutting.least_joined = {};
  return book;
}

Purchase cheapest(const OfferBook& book, const std::string& engine = "exact") {
  BuyLimits limits;
  limits.engine = engine;
  Purchase purchase = buy(book, limits);
  BOOST_TEST_MESSAGE("total " << purchase.total.minor << " bound " << purchase.proof.lower_bound.minor << " joins "
                              << purchase.joins.size() << " in " << purchase.proof.seconds);
  BOOST_TEST_REQUIRE((purchase.outcome == Outcome::bought));
  BOOST_TEST(purchase.proof.proven);
  return purchase;
}

std::int64_t joins_of(const Purchase& purchase) {
  std::int64_t joins = 0;
  for (const JoinReason& join : purchase.joins) joins += join.amount;
  return joins;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(cutting)

// "Cutting stock problem", Wikipedia: 13 widths from rolls of 5600; 73 rolls, 72.9167 in fractions.
BOOST_AUTO_TEST_CASE(thirteen_widths) {
  const Cutting asked{{{1380, 22},
                       {1520, 25},
                       {1560, 12},
                       {1710, 14},
                       {1820, 18},
                       {1880, 18},
                       {1930, 20},
                       {2000, 10},
                       {2050, 12},
                       {2100, 14},
                       {2140, 16},
                       {2150, 18},
                       {2200, 20}},
                      {{5600, 1}}};
  BOOST_TEST(cheapest(book_of(asked)).total.minor == 73);
}

// Chvatal, Linear Programming, chapter 13: 453 rolls (data from memory; the answer was computed by another solver).
BOOST_AUTO_TEST_CASE(four_widths_of_paper) {
  const Cutting asked{{{45, 97}, {36, 610}, {31, 395}, {14, 211}}, {{100, 1}}};
  BOOST_TEST(cheapest(book_of(asked)).total.minor == 453);
}

// Gilmore & Gomory, Operations Research 9(6):849-859, 1961, pp. 856-858: 170.
BOOST_AUTO_TEST_CASE(three_priced_lengths) {
  const Cutting asked{{{2, 20}, {3, 10}, {4, 20}}, {{5, 6}, {6, 7}, {9, 10}}};
  BOOST_TEST(cheapest(book_of(asked)).total.minor == 170);
}

// bpp.mod, an example of GLPK: six items, bins of 100; 3 bins.
BOOST_AUTO_TEST_CASE(six_items) {
  const Cutting asked{{{50, 1}, {60, 1}, {30, 1}, {70, 1}, {50, 1}, {40, 1}}, {{100, 1}}};
  BOOST_TEST(cheapest(book_of(asked)).total.minor == 3);
}

// Falkenauer's t60_00 (OR-Library, binpack5): triplets that fill 20 bins of 100.0 without any waste.
BOOST_AUTO_TEST_CASE(triplets) {
  Cutting asked{{}, {{1000, 1}}};
  for (const int length :
       {366, 268, 366, 430, 263, 307, 414, 287, 299, 495, 251, 254, 474, 252, 274, 370, 269, 361, 473, 252,
        275, 472, 259, 269, 444, 258, 298, 439, 273, 288, 445, 272, 283, 419, 261, 320, 363, 271, 366, 355,
        273, 372, 466, 262, 272, 357, 292, 351, 395, 255, 350, 350, 303, 347, 450, 252, 298, 410, 275, 315}) {
    asked.pieces.emplace_back(length, 1);
  }
  const Purchase purchase = cheapest(book_of(asked));
  BOOST_TEST(purchase.total.minor == 20);
  for (const CutCoil& coil : purchase.coils) BOOST_TEST(coil.left.tenths_mm == 0);
}

// Joins: the same data with a price for each coupling. Answers computed with coils joined into longer ones and a
// general solver, for groups of at most five coils.
BOOST_AUTO_TEST_CASE(joined_runs_of_sixty) {
  Cutting asked{{{60, 3}}, {{100, 10}}, 1};
  const Purchase joined = cheapest(book_of(asked));
  BOOST_TEST(joined.total.minor == 21);
  BOOST_TEST(joins_of(joined) == 1);
  asked.coupling = 11;
  const Purchase whole = cheapest(book_of(asked));
  BOOST_TEST(whole.total.minor == 30);
  BOOST_TEST(joins_of(whole) == 0);
}

BOOST_AUTO_TEST_CASE(joined_three_priced_lengths) {
  // Prices in hundredths.
  Cutting asked{{{2, 20}, {3, 10}, {4, 20}}, {{5, 600}, {6, 700}, {9, 1000}}};
  for (const auto& [coupling, total] :
       std::map<std::int64_t, std::int64_t>{{10, 16730}, {25, 16775}, {50, 16850}, {100, 17000}, {400, 17000}}) {
    asked.coupling = coupling;
    BOOST_TEST(cheapest(book_of(asked)).total.minor == total, "coupling at " << coupling);
  }
}

// The same with the paper rolls: best known for groups of at most four coils. Prices in hundredths.
BOOST_AUTO_TEST_CASE(joined_widths_of_paper) {
  Cutting asked{{{45, 97}, {36, 610}, {31, 395}, {14, 211}}, {{100, 100}}};
  for (const auto& [coupling, total] :
       std::map<std::int64_t, std::int64_t>{{5, 42345}, {10, 42690}, {25, 43675}, {50, 45250}, {100, 45300}}) {
    asked.coupling = coupling;
    BOOST_TEST(cheapest(book_of(asked)).total.minor == total, "coupling at " << coupling);
  }
}

namespace {

// The fewest joins with which coils give the pieces, by trying every whole-numbered part of every piece for every
// coil; -1 when they do not. Shares nothing with the program, not even that joined coils are one longer coil.
class EveryPart {
 public:
  EveryPart(std::vector<std::int64_t> coils, bool may_join) : coils_(std::move(coils)), may_join_(may_join) {}

  int fewest(const std::vector<std::int64_t>& pieces) {
    std::vector<std::pair<std::int64_t, bool>> rests;
    for (const std::int64_t piece : pieces) rests.emplace_back(piece, false);
    return from(0, rests);
  }

 private:
  using Rests = std::vector<std::pair<std::int64_t, bool>>;  // still to cut, begun

  int from(std::size_t coil, Rests rests) {
    std::erase_if(rests, [](const auto& rest) { return rest.first == 0; });
    if (rests.empty()) return 0;
    if (coil == coils_.size()) return -1;
    std::sort(rests.begin(), rests.end());
    const auto [known, is_new] = known_.try_emplace({coil, rests}, -1);
    if (!is_new) return known->second;
    int best = -1;
    take(coil, rests, 0, coils_[coil], 0, best);
    return known_[{coil, rests}] = best;
  }

  void take(std::size_t coil, Rests& rests, std::size_t at, std::int64_t room, int joins, int& best) {
    if (at == rests.size()) {
      const int more = from(coil + 1, rests);
      if (more >= 0 && (best < 0 || more + joins < best)) best = more + joins;
      return;
    }
    const auto whole = rests[at];
    for (std::int64_t part = 0; part <= std::min(room, whole.first); ++part) {
      if (!may_join_ && part != 0 && part != whole.first) continue;
      rests[at] = {whole.first - part, whole.second || part > 0};
      take(coil, rests, at + 1, room - part, joins + (part > 0 && whole.second ? 1 : 0), best);
    }
    rests[at] = whole;
  }

  std::vector<std::int64_t> coils_;
  bool may_join_;
  std::map<std::pair<std::size_t, Rests>, int> known_;
};

std::int64_t least_cost(const Cutting& asked, int most) {
  std::vector<std::int64_t> pieces;
  for (const auto& [length, count] : asked.pieces) pieces.insert(pieces.end(), static_cast<std::size_t>(count), length);
  std::int64_t best = -1;
  for (int first = 0; first <= most; ++first) {
    for (int second = 0; second <= (asked.coils.size() > 1 ? most : 0); ++second) {
      std::vector<std::int64_t> coils(static_cast<std::size_t>(first), asked.coils[0].first);
      std::int64_t cost = first * asked.coils[0].second;
      if (asked.coils.size() > 1) {
        coils.insert(coils.end(), static_cast<std::size_t>(second), asked.coils[1].first);
        cost += second * asked.coils[1].second;
      }
      if (best >= 0 && cost >= best) continue;
      const int joins = EveryPart(coils, asked.coupling >= 0).fewest(pieces);
      if (joins < 0) continue;
      cost += joins * asked.coupling;
      if (best < 0 || cost < best) best = cost;
    }
  }
  return best;
}

}  // namespace

BOOST_AUTO_TEST_CASE(tiny_cuttings_agree_with_trying_everything) {
  std::mt19937 random(7);
  const auto pick = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
  int impossible = 0, joined = 0;
  for (int i = 0; i < kTinyCuttings; ++i) {
    Cutting asked;
    for (int kinds = pick(1, 2); kinds > 0; --kinds) asked.coils.emplace_back(pick(3, 9), pick(4, 20));
    if (asked.coils.size() > 1 && asked.coils[0].first == asked.coils[1].first) ++asked.coils[1].first;
    for (int pieces = pick(1, 5); pieces > 0; --pieces) asked.pieces.emplace_back(pick(1, 7), 1);
    if (pick(0, 2) > 0) asked.coupling = pick(0, 8);
    const std::int64_t least = least_cost(asked, 12);  // five pieces of seven from coils of three
    for (const char* engine : {"exact", "cbc", "enumerate"}) {
      if (i % 5 != 0 && engine == std::string("enumerate")) continue;
      BuyLimits limits;
      limits.engine = engine;
      const OfferBook book = book_of(asked);
      const Purchase purchase = buy(book, limits);
      const std::int64_t found = purchase.outcome == Outcome::bought ? purchase.total.minor : -1;
      BOOST_TEST(found == least, "case " << i << " by " << engine);
      BOOST_TEST((purchase.outcome != Outcome::bought || purchase.proof.proven), "case " << i << " by " << engine);
      impossible += least < 0 ? 1 : 0;
      joined += purchase.joins.empty() ? 0 : 1;
    }
  }
  BOOST_TEST(impossible > kTinyCuttings / 20);
  BOOST_TEST(joined > kTinyCuttings / 20);
}

// More for a coupling never costs less, and what it adds shrinks: the cheapest cost is concave in it.
BOOST_AUTO_TEST_CASE(cost_is_concave_in_the_price_of_a_coupling) {
  Cutting asked{{{7, 4}, {5, 3}, {11, 2}}, {{12, 60}, {20, 95}}};
  std::vector<std::int64_t> costs;
  for (asked.coupling = 0; asked.coupling <= 100; asked.coupling += 10)
    costs.push_back(cheapest(book_of(asked)).total.minor);
  for (std::size_t i = 1; i < costs.size(); ++i) BOOST_TEST(costs[i] >= costs[i - 1]);
  for (std::size_t i = 2; i < costs.size(); ++i) BOOST_TEST(costs[i] - costs[i - 1] <= costs[i - 1] - costs[i - 2]);
  asked.coupling = -1;
  BOOST_TEST(costs.back() == cheapest(book_of(asked)).total.minor);
}

BOOST_AUTO_TEST_SUITE_END()
