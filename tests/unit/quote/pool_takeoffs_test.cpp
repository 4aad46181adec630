// Takeoffs pooled: amounts and pieces are those of all plots, and what is bought together costs no more than apart.
#include <boost/test/unit_test.hpp>
#include <numeric>

#include "quote/pool_covers.h"
#include "teetally/quote/pool.h"

using namespace teetally;

namespace {

Takeoff listed_parts(const std::string& rows) {
  Diagnostics diagnostics;
  const auto takeoff = read_parts_list(source_from_text("plot.csv", "kind,size,length,count\n" + rows),
                                       shipped_vocabulary(), diagnostics);
  BOOST_REQUIRE(!diagnostics.has_errors());
  return *takeoff;
}

// Supply tubing in coils of 8 and 10 ft at 1.00 a foot.
std::vector<Catalog> two_lengths() {
  Diagnostics diagnostics;
  const std::string text =
      "teetally: catalog 1\n"
      "supplier: {id: yard, name: Yard, notice: invented}\n"
      "currency: USD\n"
      "items:\n"
      "  - {sku: T, name: Tubing, part: {kind: supply tubing, size: 1/2 in}, inside: 0.600 in, outside: 0.700 in,\n"
      "     packs: [{length: 8 ft, price: 8.00}, {sku: T10, length: 10 ft, price: 10.00}]}\n";
  auto catalog = read_catalog(source_from_text("yard.yaml", text), shipped_vocabulary(), diagnostics);
  for (const Diagnostic& d : diagnostics.in_order()) BOOST_TEST_MESSAGE(to_text(d));
  BOOST_REQUIRE(catalog);
  return {*catalog};
}

struct Bought {
  Pooled pooled;
  OfferBook book;
  Purchase purchase;
  std::vector<Alone> alone;
};
Bought bought_for(const std::vector<Takeoff>& takeoffs) {
  std::vector<PoolPart> parts;
  for (const Takeoff& takeoff : takeoffs) parts.push_back({&takeoff, 1, "a plot"});
  Bought bought;
  bought.pooled = pool_takeoffs("pool", parts, false, two_lengths());
  bought.book = find_offers(bought.pooled.takeoff, two_lengths(), shipped_vocabulary(), {}, UnitSystem::us);
  bought.purchase = buy(bought.book, BuyLimits());
  bought.alone = buy_alone(bought.book, bought.pooled.baskets, BuyLimits(), 2);
  return bought;
}

}  // namespace

// US Army Engineer School, subcourse EN0069, lesson 4 (scrub table): alone, two pieces of 3 ft come from a length of
// 8 ft; after consolidation nine of them come from three lengths of 10 ft. Items 2, 4, 5 and 6 stand for plots; prices
// per foot are ours, equal for both lengths, so that cost is length.
BOOST_AUTO_TEST_CASE(stock_chosen_alone_and_pooled) {
  const Bought bought =
      bought_for({listed_parts("supply tubing,1/2 in,3 ft,2\n"), listed_parts("supply tubing,1/2 in,3 ft,2\n"),
                  listed_parts("supply tubing,1/2 in,3 ft,1\n"), listed_parts("supply tubing,1/2 in,3 ft,4\n")});
  const std::vector<std::int64_t> expected{800, 800, 800, 1600};
  for (std::size_t b = 0; b < expected.size(); ++b) BOOST_TEST(bought.alone[b].cost.minor == expected[b]);
  BOOST_TEST(bought.purchase.total.minor == 3000);
  BOOST_REQUIRE(bought.purchase.orders.size() == 1u);
  BOOST_REQUIRE(bought.purchase.orders[0].lines.size() == 1u);
  BOOST_TEST(bought.purchase.orders[0].lines[0].count == 3);
  BOOST_TEST(bought.purchase.orders[0].lines[0].pack == 1);
}

// 15 ft and 16 ft both come to two lengths of 8 ft, which are found for the one and tried for the other: three pieces
// of 5 ft cannot be cut from them.
BOOST_AUTO_TEST_CASE(what_comes_to_the_same_is_still_cut_for_each) {
  const Bought bought =
      bought_for({listed_parts("supply tubing,1/2 in,4 ft,4\n"), listed_parts("supply tubing,1/2 in,5 ft,3\n"),
                  listed_parts("supply tubing,1/2 in,8 ft,2\n"), listed_parts("supply tubing,1/2 in,3 ft,5\n")});
  Covers covers(bought.book);
  const auto first = covers.of(bought.pooled.baskets[0]);
  for (const Basket& basket : bought.pooled.baskets) BOOST_TEST(covers.of(basket) == first);
  const std::vector<std::int64_t> expected{1600, 1800, 1600, 1800};
  for (std::size_t b = 0; b < expected.size(); ++b) {
    BOOST_TEST(bought.alone[b].cost.minor == expected[b]);
    BOOST_TEST(bought.alone[b].least.minor == expected[b]);
    const Purchase own = buy(book_for(bought.book, {bought.pooled.baskets[b]}, {1}), BuyLimits());
    BOOST_TEST(own.total.minor == expected[b]);
  }
}

BOOST_AUTO_TEST_CASE(amounts_come_to_the_least_sum_of_lengths) {
  const Bought bought =
      bought_for({listed_parts("supply tubing,1/2 in,1 ft,1\n"), listed_parts("supply tubing,1/2 in,1 ft,9\n"),
                  listed_parts("supply tubing,1/2 in,1 ft,11\n"), listed_parts("supply tubing,1/2 in,1 ft,19\n"),
                  listed_parts("supply tubing,1/2 in,1 ft,21\n")});
  Covers covers(bought.book);
  const std::vector<std::int64_t> feet{8, 10, 16, 20, 24};
  for (std::size_t b = 0; b < feet.size(); ++b) BOOST_TEST(covers.of(bought.pooled.baskets[b])[0] == feet[b] * 3048);
}

BOOST_AUTO_TEST_CASE(pieces_add_up) {
  const Takeoff one = listed_parts("supply tubing,1/2 in,3 ft,2\nsupply tubing,1/2 in,50 in,1\ntee,1/2 in,,3\n");
  const Takeoff other = listed_parts("tee,1/2 in,,1\n");
  const Pooled pooled = pool_takeoffs("pool", {{&one, 4, "four"}, {&other, 3, "three"}}, false, two_lengths());
  BOOST_REQUIRE(pooled.baskets.size() == 2u);
  for (std::size_t n = 0; n < pooled.takeoff.needs.size(); ++n) {
    const Need& need = pooled.takeoff.needs[n];
    std::int64_t portions = 0, reasons = 0, pieces = 0;
    for (std::size_t b = 0; b < 2; ++b) {
      for (const Portion& portion : pooled.baskets[b]) {
        if (portion.need == static_cast<int>(n)) portions += portion.amount * (b == 0 ? 4 : 3);
      }
    }
    for (const Reason& reason : need.reasons) reasons += reason.amount;
    for (const NeededPiece& piece : need.pieces) pieces += piece.length.tenths_mm;
    BOOST_TEST(portions == need.amount);
    BOOST_TEST(reasons == need.amount);
    BOOST_TEST(pieces == (need.by_length ? need.amount : 0));
    BOOST_TEST(need.amount == (need.by_length ? 4 * (feet(6) + inches(50)).tenths_mm : 4 * 3 + 3));
  }
}

BOOST_AUTO_TEST_CASE(what_a_plot_has_is_cut_first) {
  Takeoff takeoff = listed_parts("supply tubing,1/2 in,3 ft,2\nsupply tubing,1/2 in,50 in,1\n");
  PlotWorks works;
  works.has.push_back({takeoff.needs[0].part, 1, feet(5), {}});
  Diagnostics diagnostics;
  adapt_takeoff(takeoff, works, "A", shipped_vocabulary(), UnitSystem::us, diagnostics);
  const Pooled pooled = pool_takeoffs("pool", {{&takeoff, 1, "one"}}, false, two_lengths());
  // The piece of 50 in comes from the 5 ft; the 10 in left hold no other.
  BOOST_REQUIRE(pooled.baskets[0].size() == 1u);
  BOOST_TEST(pooled.baskets[0][0].amount == feet(6).tenths_mm);
  BOOST_TEST(pooled.baskets[0][0].pieces.size() == 2u);
}

BOOST_AUTO_TEST_CASE(families_apart_keep_needs_apart) {
  const Takeoff one = listed_parts("supply tubing,1/2 in,3 ft,2\n");
  const Takeoff other = listed_parts("supply tubing,1/2 in,3 ft,4\n");
  const std::vector<PoolPart> parts{{&one, 1, "one"}, {&other, 1, "other"}};
  BOOST_TEST(pool_takeoffs("pool", parts, false, two_lengths()).takeoff.needs.size() == 1u);
  BOOST_TEST(pool_takeoffs("pool", parts, true, two_lengths()).takeoff.needs.size() == 2u);
}
