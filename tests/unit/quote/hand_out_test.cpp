// What is handed out is what was bought, and every plot gets what it asked for.
#include "teetally/quote/hand_out.h"

#include <boost/test/unit_test.hpp>
#include <map>

#include "unit/quote/made_result.h"

using namespace teetally;
using namespace teetally::test;

namespace {

using ItemAt = std::pair<int, int>;

std::map<ItemAt, std::int64_t> sums(const std::vector<Pick>& picks) {
  std::map<ItemAt, std::int64_t> sums;
  for (const Pick& pick : picks) sums[{pick.catalog, pick.item}] += pick.amount;
  return sums;
}

// Served and left over, by item: what the audit of the purchase holds to the packs bought.
std::map<ItemAt, std::int64_t> bought(const PoolResult& result) {
  std::map<ItemAt, std::int64_t> sums;
  for (const Supply& supply : result.purchase.supplies) {
    const BookItem& item = result.book.items[supply.item];
    sums[{item.catalog, item.item}] += supply.amount;
  }
  for (const Leftover& left : result.purchase.leftovers) sums[{left.catalog, left.item}] += left.amount;
  return sums;
}

}  // namespace

BOOST_AUTO_TEST_CASE(every_piece_goes_somewhere_once) {
  std::mt19937 dice(11);
  for (int round = 0; round < 30; ++round) {
    PoolResult result = random_result(dice);
    BOOST_REQUIRE((result.purchase.outcome == Outcome::bought));
    result.pool.leftovers = round % 2 == 0 ? LeftoverRule::stock : LeftoverRule::by_use;
    const HandOut out = hand_out(result);
    BOOST_TEST(out.sequence.size() == result.plots.size());
    std::vector<Pick> all = out.stock;
    std::map<int, std::int64_t> from_pack;
    for (const PlotPicks& plot : out.sequence) {
      std::int64_t wanted = 0, got = 0;
      for (const Portion& portion : result.baskets[result.plots[plot.line].basket]) wanted += portion.amount;
      for (const Pick& pick : plot.picks) got += pick.amount;
      if (result.pool.leftovers == LeftoverRule::stock) BOOST_TEST(got == wanted);
      BOOST_TEST(got >= wanted);
      all.insert(all.end(), plot.picks.begin(), plot.picks.end());
    }
    BOOST_TEST((sums(all) == bought(result)));
    for (const Pick& pick : all) from_pack[pick.pack] += pick.amount;
    BOOST_TEST(from_pack.size() == out.packs.size());
    for (const auto& [pack, amount] : from_pack) {
      const PackThere& there = out.packs[pack];
      if (there.bundle < 0) {
        BOOST_TEST(amount == result.book.catalogs[there.catalog]->items[there.item].packs[there.pack].count);
      }
    }
    if (result.pool.leftovers == LeftoverRule::by_use) BOOST_TEST(out.stock.empty());
    BOOST_TEST(out.most_open <= out.most_open_as_listed);
  }
}

BOOST_AUTO_TEST_CASE(the_next_discount_is_some_plots_away) {
  HandMadeBook shops;
  OrderingTerms terms = flat_shipping(0);
  add_discount(terms, 1000, 50'000);
  const int shop = shops.shop(terms);
  shops.need(1, {shops.item(shop, {pack_of(1, 100)})});
  PoolResult result;
  result.baskets = {{{0, 2, {}}}};
  for (int p = 0; p < 4; ++p) {
    result.pool.plots.emplace_back();
    result.plots.push_back({p, 0, {}, {}});
  }
  result.book = book_for(shops.book(), result.baskets, {4});
  result.purchase = buy(result.book, BuyLimits());
  // Four plots buy for 800; a plot brings 200, so one more reaches 1000.
  const std::vector<NextStep> steps = next_steps_of(result);
  BOOST_REQUIRE(steps.size() == 1u);
  BOOST_TEST((steps[0].kind == NextStep::Kind::discount));
  BOOST_TEST(steps[0].missing.minor == 200);
  BOOST_TEST(steps[0].plots == 1);
}

// The order value counts, which is what goods come to less the discount.
BOOST_AUTO_TEST_CASE(the_next_shipping_step_is_reached_by_what_is_paid_for_goods) {
  HandMadeBook shops;
  OrderingTerms terms = free_from(50, 900);
  add_discount(terms, 500, 200'000);
  const int shop = shops.shop(terms);
  shops.need(1, {shops.item(shop, {pack_of(1, 100)})});
  PoolResult result;
  result.baskets = {{{0, 2, {}}}};
  for (int p = 0; p < 5; ++p) {
    result.pool.plots.emplace_back();
    result.plots.push_back({p, 0, {}, {}});
  }
  result.book = book_for(shops.book(), result.baskets, {5});
  result.purchase = buy(result.book, BuyLimits());
  // Five plots buy for 1000 less 200; a plot brings 160, so one more reaches 900.
  const std::vector<NextStep> steps = next_steps_of(result);
  BOOST_REQUIRE(steps.size() == 1u);
  BOOST_TEST((steps[0].kind == NextStep::Kind::shipping));
  BOOST_TEST(steps[0].missing.minor == 100);
  BOOST_TEST(steps[0].plots == 1);
}
