#include <boost/test/unit_test.hpp>

#include "purchase/cut/cutting.h"
#include "purchase/cut/mend.h"

using namespace teetally;

namespace {

// Two needs of tubing in pieces of 60, each with coils of 100 of its own: two coils hold the length of three pieces,
// and three are needed to cut them.
PurchaseProblem two_needs(std::int64_t stock) {
  PurchaseProblem problem;
  problem.suppliers.resize(1);
  problem.suppliers[0].brackets.emplace_back();
  for (int n = 0; n < 2; ++n) {
    problem.products.push_back({0, n, n, true});
    PackOffer offer;
    offer.supplier = 0;
    offer.product = n;
    offer.content = 100;
    offer.prices = {{1, 0, 500}};
    offer.most = stock;
    problem.packs.push_back(offer);
    problem.needs.push_back(180);
    problem.servings.push_back({n, n, {}});
    problem.pieces.push_back({{60, false, false, 0}, {60, false, false, 1}, {60, false, false, 2}});
    problem.site_coils.emplace_back();
    problem.join_of_need.push_back(-1);
  }
  return problem;
}

std::optional<Plan> mended_from_two_coils(const PurchaseProblem& problem) {
  Plan plan = empty_plan(problem);
  plan.lots = {2, 2};
  return mended(problem, plan, {Stopwatch{}, 60});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(mend_cuts)

BOOST_AUTO_TEST_CASE(needs_that_lack_coils_are_mended_together) {
  const PurchaseProblem problem = two_needs(10);
  const std::optional<Plan> plan = mended_from_two_coils(problem);
  BOOST_REQUIRE(plan.has_value());
  BOOST_TEST(plan->lots == (std::vector<std::int64_t>{3, 3}), boost::test_tools::per_element());
  for (const Cutting& cutting : cuttings_of(problem, *plan)) {
    BOOST_TEST((cut(cutting.task, 1000).cuttable == Cuttable::yes));
  }
}

BOOST_AUTO_TEST_CASE(a_stock_that_is_too_small_is_not_mended) {
  BOOST_TEST(!mended_from_two_coils(two_needs(2)).has_value());
}

// Far more coils than a few: the number is found by doubling, and no more are bought than are needed.
BOOST_AUTO_TEST_CASE(many_coils_are_added_where_many_are_lacking) {
  PurchaseProblem problem = two_needs(1000);
  for (int piece = 3; piece < 90; ++piece) {
    problem.pieces[0].push_back({60, false, false, piece});
    problem.needs[0] += 60;
  }
  const std::optional<Plan> plan = mended_from_two_coils(problem);
  BOOST_REQUIRE(plan.has_value());
  BOOST_TEST(plan->lots == (std::vector<std::int64_t>{90, 3}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_SUITE_END()
