#include "purchase/order_terms.h"

#include <boost/test/unit_test.hpp>

#include "purchase/plan.h"
#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

SupplierTerms abstract(const OrderingTerms& terms) {
  SupplierTerms made;
  made.brackets = order_brackets(terms);
  made.tax_ppm = terms.tax.ppm;
  made.tax_on_charge = terms.tax_on_shipping;
  return made;
}

// Goods less discount, from the catalog's own pricing.
bool delivered(const OrderingTerms& terms, const OrderCost& cost) {
  return !terms.minimum_order || cost.goods - cost.discount >= *terms.minimum_order;
}

std::vector<OrderingTerms> many_terms() {
  std::vector<OrderingTerms> many;
  OrderingTerms steep = free_from(795, 6000);
  add_discount(steep, 0, 20'000);
  add_discount(steep, 6000, 150'000);  // drops the order value below the free limit again
  steep.tax = {82'500};
  steep.tax_on_shipping = true;
  many.push_back(steep);
  OrderingTerms whole;
  add_discount(whole, 50, 1'000'000);
  whole.minimum_order = Money{20};
  many.push_back(whole);
  return many;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(order_terms)

// The abstract problem's brackets against the catalog's pricing, at every goods value.
BOOST_AUTO_TEST_CASE(brackets_cost_what_the_catalog_says) {
  for (const OrderingTerms& terms : many_terms()) {
    const SupplierTerms made = abstract(terms);
    for (std::int64_t goods = 0; goods <= 12'000; ++goods) {
      const OrderCost cost = landed_cost(terms, {goods});
      const std::optional<std::int64_t> found = cost_of_order(made, goods);
      BOOST_TEST_REQUIRE(found.has_value() == delivered(terms, cost), "goods " << goods);
      if (found) BOOST_TEST_REQUIRE(*found == cost.total.minor, "goods " << goods);
    }
  }
}

BOOST_AUTO_TEST_CASE(brackets_are_few) {
  BOOST_TEST(order_brackets({}).size() == 1u);
  BOOST_TEST(order_brackets(free_from(795, 6000)).size() == 2u);
  BOOST_TEST(order_brackets(shipping({{0, 500}, {100, 500}, {200, 0}})).size() == 2u);
}

// Taking away unneeded goods worth more than most_saved_by_filler pays wherever the supplier still delivers.
BOOST_AUTO_TEST_CASE(filler_saves_no_more_than_said) {
  OrderingTerms terms = shipping({{0, 20}, {60, 3}, {90, 9}});
  add_discount(terms, 40, 100'000);
  add_discount(terms, 80, 250'000);
  terms.tax = {190'000};
  terms.small_order_below = Money{30};
  terms.small_order_fee = {7};
  const SupplierTerms made = abstract(terms);
  const std::int64_t saved = most_saved_by_filler(made);
  for (std::int64_t goods = 0; goods <= 250; ++goods) {
    for (std::int64_t less = 0; less + saved < goods; ++less) {
      BOOST_TEST_REQUIRE(*cost_of_order(made, less) < *cost_of_order(made, goods), less << " and " << goods);
    }
  }
}

BOOST_AUTO_TEST_CASE(delivery_is_sure_from_the_last_gap_on) {
  OrderingTerms terms;
  terms.minimum_order = Money{90};
  add_discount(terms, 100, 200'000);  // 100 becomes 80, delivered again from 112 (which becomes 90)
  const std::vector<OrderBracket> brackets = order_brackets(terms);
  BOOST_TEST(brackets.size() == 2u);
  BOOST_TEST(brackets.front().from == 90);
  BOOST_TEST(brackets.front().to == 99);
  BOOST_TEST(surely_delivered(brackets) == 112);
  BOOST_TEST(surely_delivered(order_brackets(free_from(5, 10))) == 0);
}

BOOST_AUTO_TEST_SUITE_END()
