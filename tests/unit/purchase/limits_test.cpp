#include <boost/test/unit_test.hpp>

#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

HandMadeBook one_shop() {
  HandMadeBook made;
  const int shop = made.shop(flat_shipping(500));
  const int tee = made.item(shop, {pack_of(1, 65)});
  made.bundle(shop, 400, {{tee, 10, -1, {}}});
  made.need(3, {tee});
  return made;
}

std::vector<std::string> slugs(const BuyLimits& limits) {
  Diagnostics diagnostics;
  check_limits(one_shop().book(), limits, diagnostics);
  std::vector<std::string> result;
  for (const Diagnostic& diagnostic : diagnostics.in_order()) result.push_back(diagnostic.slug);
  return result;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(limits)

BOOST_AUTO_TEST_CASE(known_names_are_accepted) {
  BuyLimits limits;
  limits.only_suppliers = {"shop-1"};
  limits.take_bundle = std::string("shop-1-bundle-1");
  BOOST_TEST(slugs(limits).empty());
}

BOOST_AUTO_TEST_CASE(unknown_names_are_all_reported) {
  BuyLimits limits;
  limits.only_suppliers = {"shop-2"};
  limits.avoid_suppliers = {"elsewhere"};
  limits.take_bundle = std::string("no-such");
  limits.engine = "cbd";
  const std::vector<std::string> expected{"purchase/unknown-supplier", "purchase/unknown-supplier",
                                          "purchase/unknown-bundle", "purchase/unknown-engine"};
  BOOST_TEST(slugs(limits) == expected, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(the_nearest_name_is_offered) {
  BuyLimits limits;
  limits.engine = "cbd";
  Diagnostics diagnostics;
  check_limits(one_shop().book(), limits, diagnostics);
  BOOST_TEST(diagnostics.in_order().at(0).help == "did you mean 'cbc'? there are exact, cbc, bulk and enumerate");
}

BOOST_AUTO_TEST_CASE(a_wanted_bundle_and_no_bundles_contradict) {
  BuyLimits limits;
  limits.no_bundles = true;
  limits.take_bundle = std::string("shop-1-bundle-1");
  BOOST_TEST(slugs(limits) == std::vector<std::string>{"purchase/contradicting-limits"},
             boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(limits_are_kept) {
  HandMadeBook made = one_shop();
  const int other = made.shop({});
  made.serve(0, made.item(other, {pack_of(1, 90)}), {});
  const OfferBook book = made.book();
  BOOST_TEST(buy(book, {}).total.minor == 270);
  BuyLimits only;
  only.only_suppliers = {"shop-1"};
  BOOST_TEST(buy(book, only).total.minor == 695);
  BuyLimits avoid;
  avoid.avoid_suppliers = {"shop-2"};
  BOOST_TEST(buy(book, avoid).total.minor == 695);
  BuyLimits bundle;
  bundle.take_bundle = std::string("shop-1-bundle-1");
  BOOST_TEST(buy(book, bundle).total.minor == 900);
}

BOOST_AUTO_TEST_CASE(an_unknown_engine_is_a_failure) {
  BuyLimits limits;
  limits.engine = "none";
  BOOST_CHECK_THROW(buy(one_shop().book(), limits), SolverFailure);
}

BOOST_AUTO_TEST_SUITE_END()
