// What orders cost, worked by hand.
#include <boost/test/unit_test.hpp>

#include "teetally/catalog.h"

using namespace teetally;

namespace {

Pack pack(std::vector<PriceBreak> prices, BreakRule rule) {
  Pack made;
  made.prices = std::move(prices);
  made.rule = rule;
  return made;
}

OrderingTerms terms() {
  OrderingTerms made;
  made.shipping = {{Money{0}, Money{795}}, {Money{6000}, Money{495}}, {Money{9000}, Money{0}}};
  made.small_order_below = Money{2000};
  made.small_order_fee = Money{250};
  made.discounts = {{Money{9200}, Percent{50'000}}, {Money{40000}, Percent{80'000}}};
  made.tax = Percent{82'500};
  return made;
}

void check(const OrderCost& cost, std::int64_t goods, std::int64_t discount, std::int64_t shipping, std::int64_t fee,
           std::int64_t tax, std::int64_t total) {
  BOOST_TEST(cost.goods.minor == goods);
  BOOST_TEST(cost.discount.minor == discount);
  BOOST_TEST(cost.shipping.minor == shipping);
  BOOST_TEST(cost.small_order_fee.minor == fee);
  BOOST_TEST(cost.tax.minor == tax);
  BOOST_TEST(cost.total.minor == total);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(landed_costs)

// 4.90 each, from 3 packs 4.60, from 10 packs 4.00.
BOOST_AUTO_TEST_CASE(all_units_price_every_pack_at_the_step_reached) {
  const Pack p = pack({{1, Money{490}}, {3, Money{460}}, {10, Money{400}}}, BreakRule::all_units);
  BOOST_TEST(price_of(p, 0).minor == 0);
  BOOST_TEST(price_of(p, 1).minor == 490);
  BOOST_TEST(price_of(p, 2).minor == 980);
  BOOST_TEST(price_of(p, 3).minor == 1380);
  BOOST_TEST(price_of(p, 9).minor == 4140);
  BOOST_TEST(price_of(p, 10).minor == 4000);  // ten cost less than nine
}

// Two at 4.90, seven at 4.60, the rest at 4.00.
BOOST_AUTO_TEST_CASE(incremental_prices_each_pack_at_its_own_step) {
  const Pack p = pack({{1, Money{490}}, {3, Money{460}}, {10, Money{400}}}, BreakRule::incremental);
  BOOST_TEST(price_of(p, 0).minor == 0);
  BOOST_TEST(price_of(p, 1).minor == 490);
  BOOST_TEST(price_of(p, 2).minor == 980);
  BOOST_TEST(price_of(p, 3).minor == 1440);
  BOOST_TEST(price_of(p, 9).minor == 2 * 490 + 7 * 460);
  BOOST_TEST(price_of(p, 10).minor == 2 * 490 + 7 * 460 + 400);
  BOOST_TEST(price_of(p, 12).minor == 2 * 490 + 7 * 460 + 3 * 400);
}

// "Purchasing with price breaks", a user's guide example: up to 100 at 9.20, to 200 at 9, beyond at 7; its own
// check values are 150 for 1370 and 225 for 1995.
BOOST_AUTO_TEST_CASE(a_published_incremental_example) {
  const Pack p = pack({{1, Money{920}}, {101, Money{900}}, {201, Money{700}}}, BreakRule::incremental);
  BOOST_TEST(price_of(p, 150).minor == 137000);
  BOOST_TEST(price_of(p, 225).minor == 199500);
}

// 10.00: shipping 7.95, fee 2.50, tax 8.25 % of 10.00 = 0.825, half a cent rounds up.
BOOST_AUTO_TEST_CASE(a_small_order) { check(landed_cost(terms(), Money{1000}), 1000, 0, 795, 250, 83, 2128); }

BOOST_AUTO_TEST_CASE(steps_hold_from_their_own_value_on) {
  check(landed_cost(terms(), Money{2000}), 2000, 0, 795, 0, 165, 2960);
  check(landed_cost(terms(), Money{5999}), 5999, 0, 795, 0, 495, 7289);
  check(landed_cost(terms(), Money{6000}), 6000, 0, 495, 0, 495, 6990);
  check(landed_cost(terms(), Money{9000}), 9000, 0, 0, 0, 743, 9743);
}

// 92.00 reaches the 5 % discount: order value 87.40, which no longer ships free.
BOOST_AUTO_TEST_CASE(shipping_looks_at_the_value_after_the_discount) {
  check(landed_cost(terms(), Money{9200}), 9200, 460, 495, 0, 721, 9956);
}

// 400.10 less 8 % (32.008, rounds to 32.01) is 368.09; tax 30.367 rounds to 30.37.
BOOST_AUTO_TEST_CASE(the_highest_discount_step_reached_holds_for_the_whole_order) {
  check(landed_cost(terms(), Money{40010}), 40010, 3201, 0, 0, 3037, 39846);
}

// 10.00 + 7.95 + 2.50 = 20.45; 8.25 % of it is 1.687, rounded once.
BOOST_AUTO_TEST_CASE(tax_on_shipping_is_taken_once_on_the_sum) {
  OrderingTerms taxed = terms();
  taxed.tax_on_shipping = true;
  check(landed_cost(taxed, Money{1000}), 1000, 0, 795, 250, 169, 2214);
}

BOOST_AUTO_TEST_CASE(no_terms_no_charges) { check(landed_cost({}, Money{1234}), 1234, 0, 0, 0, 0, 1234); }

BOOST_AUTO_TEST_SUITE_END()
