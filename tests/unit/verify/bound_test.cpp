// What a certificate's bound is made of, each part against plain counting.
#include <boost/test/unit_test.hpp>
#include <random>

#include "verify/goods.h"

using namespace teetally;

namespace {

Catalog shop_with_coil(std::int64_t tenths_mm) {
  Catalog catalog;
  catalog.id = "shop";
  Item& item = catalog.items.emplace_back();
  item.sku = "T";
  Pack& pack = item.packs.emplace_back();
  pack.sku = "T";
  pack.length = {tenths_mm};
  pack.prices = {{1, {700}}};
  return catalog;
}

OrderQuestion tubing_question(StatedNeed need) {
  OrderQuestion question;
  question.suppliers = {"shop"};
  question.needs = {std::move(need)};
  question.servings = {{0, 0, 0, {}}};
  return question;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(bound)

// Two pieces of 40 fit into a coil of 100, a third does not; what may be joined fills the rest.
BOOST_AUTO_TEST_CASE(a_coil_brings_what_pieces_can_fill) {
  const Catalog shop = shop_with_coil(1000);
  const std::vector<const Catalog*> catalogs{&shop};
  StatedNeed need{"N1", 1200, {400, 400, 400}, 0, {}};
  BOOST_TEST(open_market(tubing_question(need), catalogs).packs.at(0).useful == 800);
  need.joined = 150;
  BOOST_TEST(open_market(tubing_question(need), catalogs).packs.at(0).useful == 950);
  need.joined = 500;
  BOOST_TEST(open_market(tubing_question(need), catalogs).packs.at(0).useful == 1000);
  const StatedNeed total{"N1", 1200, {}, 1200, {}};
  BOOST_TEST(open_market(tubing_question(total), catalogs).packs.at(0).useful == 1000);
}

// A coil of 100 on site takes two of three pieces of 40: one piece is left to buy, though only 20 are missing in total.
BOOST_AUTO_TEST_CASE(coils_on_site_count_with_what_they_can_give) {
  const Catalog shop = shop_with_coil(1000);
  const StatedNeed need{"N1", 200, {400, 400, 400}, 0, {1000}};
  BOOST_TEST(open_market(tubing_question(need), {&shop}).asked.at(0) == 400);
}

// Four pieces take two coils, whatever their total says.
BOOST_AUTO_TEST_CASE(a_case_without_splits_counts_coils) {
  const Catalog shop = shop_with_coil(1000);
  const Market market = open_market(tubing_question({"N1", 1600, {400, 400, 400, 400}, 0, {}}), {&shop});
  const OpenCase open(market, all_cases(market), 10'000);
  BOOST_TEST(!open.closed());
  BOOST_TEST(open.bound({{{{0, 1000}}}, {}}, 1000) == 1'400'000);
  const OpenCase dear(market, all_cases(market), 1'400);
  BOOST_TEST(dear.bound({{{{0, 1000}}}, {}}, 1000) == 1'400'000);
}

// Of every goods value in reach, the landed cost less the rate is never below the floor.
BOOST_AUTO_TEST_CASE(no_order_is_below_its_floor) {
  std::mt19937 random(11);
  const auto pick = [&](int low, int high) {
    return low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1));
  };
  for (int round = 0; round < 400; ++round) {
    OrderingTerms terms;
    terms.shipping.push_back({Money{0}, Money{pick(0, 90)}});
    if (pick(0, 1) == 1) terms.shipping.push_back({Money{pick(100, 400)}, Money{pick(0, 40)}});
    if (pick(0, 1) == 1) terms.discounts.push_back({Money{pick(50, 500)}, Percent{pick(0, 300'000)}});
    if (pick(0, 1) == 1) terms.minimum_order = Money{pick(1, 300)};
    if (pick(0, 1) == 1) {
      terms.small_order_below = Money{pick(1, 300)};
      terms.small_order_fee = Money{pick(0, 60)};
    }
    terms.tax = {pick(0, 250'000)};
    terms.tax_on_shipping = pick(0, 1) == 1;
    const Span span{pick(-1, 200), pick(200, 900)};
    const std::int64_t steps = pick(1, 1000), rate = pick(0, static_cast<int>(2 * steps)), cost = pick(100, 900);
    const std::vector<GoodsStretch> stretches = goods_stretches(terms, span, cost);
    for (std::int64_t goods = std::max<std::int64_t>(0, span.from); goods <= span.to; ++goods) {
      const OrderCost landed = landed_cost(terms, Money{goods});
      const bool delivered = !terms.minimum_order || landed.goods - landed.discount >= *terms.minimum_order;
      int within = 0;
      for (const GoodsStretch& stretch : stretches) {
        if (goods < stretch.from || goods > stretch.to) continue;
        ++within;
        const GoodsFloor floor = goods_floor(terms, stretch, rate, steps);
        BOOST_TEST((floor.steps <= landed.total.minor * steps - rate * goods));
      }
      BOOST_TEST(within == (delivered && landed.total.minor < cost ? 1 : 0), "goods " << goods << " round " << round);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
