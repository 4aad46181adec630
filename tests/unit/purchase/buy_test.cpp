// One small purchase per rule of the model, each with an answer that can be seen by hand.
#include <boost/test/unit_test.hpp>

#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

Purchase bought(const HandMadeBook& made, const BuyLimits& limits = {}) {
  Purchase purchase = buy(made.book(), limits);
  BOOST_TEST_REQUIRE((purchase.outcome == Outcome::bought));
  BOOST_TEST(purchase.proof.proven);
  BOOST_TEST(purchase.proof.lower_bound.minor == purchase.total.minor);
  return purchase;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(buying)

BOOST_AUTO_TEST_CASE(nothing_needed_costs_nothing) {
  HandMadeBook made;
  made.item(made.shop(flat_shipping(500)), {pack_of(1, 65)});
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.total.minor == 0);
  BOOST_TEST(purchase.orders.empty());
}

BOOST_AUTO_TEST_CASE(no_catalog_sells_nothing) {
  HandMadeBook made;
  made.need(1, {});
  const Purchase purchase = buy(made.book(), {});
  BOOST_TEST((purchase.outcome == Outcome::infeasible));
}

BOOST_AUTO_TEST_CASE(the_larger_pack_wins_and_leaves_spares) {
  HandMadeBook made;
  const int shop = made.shop({});
  made.need(8, {made.item(shop, {pack_of(1, 65), pack_of(10, 490)})});
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.total.minor == 490);
  BOOST_TEST(purchase.leftovers.at(0).amount == 2);
  BOOST_TEST(purchase.supplies.at(0).amount == 8);
}

// One tee more than needed reaches free shipping: 12 x 5.00 + 0 beats 11 x 5.00 + 7.95.
BOOST_AUTO_TEST_CASE(filler_reaches_free_shipping) {
  HandMadeBook made;
  const int shop = made.shop(free_from(795, 6000));
  made.need(11, {made.item(shop, {pack_of(1, 500)})});
  BOOST_TEST(bought(made).total.minor == 6000);
}

// A part that nobody needs is cheaper filler: 55.00 + 5.00 beats 55.00 + 7.95 and 12 x 5.50.
BOOST_AUTO_TEST_CASE(filler_may_be_of_no_use) {
  HandMadeBook made;
  const int shop = made.shop(free_from(795, 6000));
  made.need(10, {made.item(shop, {pack_of(1, 550)})});
  made.item(shop, {pack_of(1, 500)});
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.total.minor == 6000);
  BOOST_TEST(purchase.leftovers.size() == 1u);
}

BOOST_AUTO_TEST_CASE(discount_and_tax_are_rounded_once) {
  OrderingTerms terms = flat_shipping(333);
  add_discount(terms, 100, 50'000);
  terms.tax = {82'500};
  terms.tax_on_shipping = true;
  HandMadeBook made;
  made.need(1, {made.item(made.shop(terms), {pack_of(1, 1010)})});
  // 5 % of 1010 is 50.5, so 51; 959 + 333 = 1292, of which 8.25 % is 106.59, so 107.
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.orders.at(0).cost.discount.minor == 51);
  BOOST_TEST(purchase.total.minor == 1399);
}

BOOST_AUTO_TEST_CASE(minimum_order_is_reached_by_filler) {
  OrderingTerms terms;
  terms.minimum_order = Money{1000};
  HandMadeBook made;
  made.need(1, {made.item(made.shop(terms), {pack_of(1, 300)})});
  BOOST_TEST(bought(made).total.minor == 1200);
}

BOOST_AUTO_TEST_CASE(multiples_minimums_and_stock_hold) {
  HandMadeBook made;
  const int shop = made.shop({});
  Pack pack = pack_of(1, 10);
  pack.multiple = 4;
  pack.minimum = 6;
  Pack dear = pack_of(1, 30);
  dear.stock = 1;
  const int item = made.item(shop, {pack, dear});
  made.need(9, {item});
  const Purchase purchase = bought(made);  // 8 by four and one dear, or 12 by four
  BOOST_TEST(purchase.total.minor == 110);
}

BOOST_AUTO_TEST_CASE(bundles_are_changed_each_as_it_suits) {
  HandMadeBook made;
  const int shop = made.shop({});
  const int tee = made.item(shop, {pack_of(1, 100)});
  const int elbow = made.item(shop, {pack_of(1, 100)});
  made.bundle(shop, 500, {{tee, 4, 150, {{elbow, 10}}}, {elbow, 4, -1, {}}});
  made.need(4, {tee});
  made.need(11, {elbow});
  // Two bundles: one as it is, in the other the tees become elbows (+40): 1040. Loose would be 1500.
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.total.minor == 1040);
  BOOST_REQUIRE(purchase.orders.at(0).lines.at(0).changes.size() == 1u);
  BOOST_TEST(purchase.orders[0].lines[0].changes[0].swap == 0);
  BOOST_TEST(purchase.orders[0].lines[0].changes[0].times == 1);
}

BOOST_AUTO_TEST_CASE(a_system_has_one_family) {
  HandMadeBook made;
  const int shop = made.shop({});
  const int system = made.system(2);
  const int tubing_a = made.item(shop, {coil_of(300'000, 900)}), tubing_b = made.item(shop, {coil_of(300'000, 1000)});
  const int tee_a = made.item(shop, {pack_of(1, 90)}), tee_b = made.item(shop, {pack_of(1, 60)});
  const int tubing = made.need(250'000, {}), tees = made.need(5, {});
  made.serve(tubing, tubing_a, {{system, {0}}});
  made.serve(tubing, tubing_b, {{system, {1}}});
  made.serve(tees, tee_a, {{system, {0}}});
  made.serve(tees, tee_b, {{system, {1}}});
  const Purchase purchase = bought(made);  // 1000 + 5 x 60, not 900 + 5 x 60
  BOOST_TEST(purchase.total.minor == 1300);
  BOOST_TEST(purchase.family_of_system.at(0) == 1);
}

// A family in which nothing serves a need is out, however long the tubing; the search of our own goes on with the rest.
BOOST_AUTO_TEST_CASE(a_family_that_nobody_sells_is_out) {
  HandMadeBook made;
  const int shop = made.shop({});
  const int system = made.system(2);
  const int tubing = made.need(900'001, {});
  made.serve(tubing, made.item(shop, {coil_of(300'000, 1000)}), {{system, {1}}});
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.total.minor == 4000);
  BOOST_TEST(purchase.family_of_system.at(0) == 1);
  BOOST_TEST(purchase.proof.rests_on.starts_with("own exact search"), purchase.proof.rests_on);
}

BOOST_AUTO_TEST_CASE(one_item_serves_several_needs) {
  HandMadeBook made;
  const int shop = made.shop({});
  const int both = made.item(shop, {pack_of(6, 300)}), one = made.item(shop, {pack_of(1, 70)});
  made.need(4, {both, one});
  made.need(2, {both});
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.total.minor == 300);
  BOOST_TEST(purchase.supplies.size() == 2u);
}

BOOST_AUTO_TEST_CASE(parts_on_hand_are_used_first_and_are_no_supplier) {
  HandMadeBook made;
  const int shed = made.shop({}), shop = made.shop(flat_shipping(400));
  Pack own = pack_of(1, 0);
  own.stock = 3;
  made.need(5, {made.item(shed, {own}), made.item(shop, {pack_of(1, 100)})});
  BuyLimits limits;
  limits.most_suppliers = 1;
  limits.only_suppliers = {"shop-2"};
  BOOST_TEST(bought(made, limits).total.minor == 600);
}

BOOST_AUTO_TEST_CASE(ties_go_to_fewer_suppliers_then_packs_then_spares) {
  HandMadeBook made;
  const int left = made.shop({}), right = made.shop({});
  const int tee_left = made.item(left, {pack_of(1, 50), pack_of(4, 200), pack_of(5, 200)});
  const int elbow_left = made.item(left, {pack_of(1, 70)}), elbow_right = made.item(right, {pack_of(1, 70)});
  made.need(4, {tee_left});
  made.need(1, {elbow_left, elbow_right});
  const Purchase purchase = bought(made);
  BOOST_TEST(purchase.proof.ties_settled);
  BOOST_TEST(purchase.orders.size() == 1u);
  BOOST_TEST(purchase.orders.at(0).lines.size() == 2u);
  BOOST_TEST(purchase.leftovers.empty());
}

BOOST_AUTO_TEST_CASE(all_engines_answer_alike) {
  HandMadeBook made;
  const int shop = made.shop(free_from(795, 2000));
  made.need(3, {made.item(shop, {pack_of(1, 465), pack_of(5, 1990)})});
  BuyLimits limits;
  for (const char* engine : {"cbc", "enumerate"}) {
    limits.engine = engine;
    BOOST_TEST(bought(made, limits).total.minor == bought(made).total.minor);
  }
}

BOOST_AUTO_TEST_SUITE_END()
