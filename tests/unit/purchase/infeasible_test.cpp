#include <boost/test/unit_test.hpp>

#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

std::vector<Shortfall> shortfalls(const HandMadeBook& made, const BuyLimits& limits = {}) {
  const Purchase purchase = buy(made.book(), limits);
  BOOST_TEST_REQUIRE((purchase.outcome == Outcome::infeasible));
  return purchase.shortfalls;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(infeasible)

BOOST_AUTO_TEST_CASE(every_need_that_nothing_serves_is_named) {
  HandMadeBook made;
  const int shop = made.shop({});
  made.need(1, {});
  made.need(2, {made.item(shop, {pack_of(1, 10)})});
  made.need(3, {});
  const std::vector<Shortfall> found = shortfalls(made);
  BOOST_REQUIRE(found.size() == 2u);
  BOOST_TEST(found[0].needs == std::vector<int>{0}, boost::test_tools::per_element());
  BOOST_TEST(found[1].needs == std::vector<int>{2}, boost::test_tools::per_element());
  BOOST_TEST(found[0].why == "no item in any catalog serves it");
}

BOOST_AUTO_TEST_CASE(a_limit_that_leaves_no_item_is_named) {
  HandMadeBook made;
  made.need(1, {made.item(made.shop({}), {pack_of(1, 10)})});
  BuyLimits limits;
  limits.avoid_suppliers = {"shop-1"};
  BOOST_TEST(shortfalls(made, limits).at(0).why == "no item that serves it can be bought within the limits");
}

BOOST_AUTO_TEST_CASE(needs_that_share_too_small_a_stock_are_found) {
  HandMadeBook made;
  const int shop = made.shop({});
  Pack pack = pack_of(1, 10);
  pack.stock = 5;
  const int shared = made.item(shop, {pack});
  made.need(1, {made.item(shop, {pack_of(1, 10)})});
  made.need(3, {shared});
  made.need(3, {shared});
  const std::vector<Shortfall> found = shortfalls(made);
  BOOST_REQUIRE(found.size() == 1u);
  const std::vector<int> expected{1, 2};
  BOOST_TEST(found[0].needs == expected, boost::test_tools::per_element());
  BOOST_TEST(found[0].why == "stock on offer is too small");
}

BOOST_AUTO_TEST_CASE(families_that_exclude_each_other_are_found) {
  HandMadeBook made;
  const int shop = made.shop({});
  const int system = made.system(2);
  const int tee = made.need(1, {}), elbow = made.need(1, {});
  made.serve(tee, made.item(shop, {pack_of(1, 10)}), {{system, {0}}});
  made.serve(elbow, made.item(shop, {pack_of(1, 10)}), {{system, {1}}});
  const std::vector<Shortfall> found = shortfalls(made);
  BOOST_REQUIRE(found.size() == 1u);
  BOOST_TEST(found[0].needs.size() == 2u);
  BOOST_TEST(found[0].why == "no single fit family serves them all");
}

BOOST_AUTO_TEST_CASE(too_few_suppliers_allowed_is_found) {
  HandMadeBook made;
  made.need(1, {made.item(made.shop({}), {pack_of(1, 10)})});
  made.need(1, {made.item(made.shop({}), {pack_of(1, 10)})});
  BuyLimits limits;
  limits.most_suppliers = 1;
  const std::vector<Shortfall> found = shortfalls(made, limits);
  BOOST_TEST(found.at(0).needs.size() == 2u);
  BOOST_TEST(found.at(0).why == "more suppliers than allowed are needed");
}

BOOST_AUTO_TEST_CASE(a_minimum_order_out_of_reach_is_found) {
  OrderingTerms terms;
  terms.minimum_order = Money{1000};
  HandMadeBook made;
  Pack pack = pack_of(1, 10);
  pack.stock = 20;
  made.need(1, {made.item(made.shop(terms), {pack})});
  const std::string why = shortfalls(made).at(0).why;
  BOOST_TEST(why == "stock on offer is too small; a supplier's minimum order cannot be reached");
}

BOOST_AUTO_TEST_SUITE_END()
