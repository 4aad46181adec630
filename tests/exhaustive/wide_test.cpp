// The linear split for large orders, on tiny purchases whose optimum is known by trying everything: its bound must not
// exceed the optimum, also not after adding what it says each bundle of the optimum costs beyond its worth. That sum is
// what limits to bundle counts rest on.
#include <boost/test/unit_test.hpp>

#include "bench/purchase/classes.h"
#include "exhaustive/random_book.h"
#include "places.h"
#include "purchase/build_problem.h"
#include "purchase/exact_wide.h"
#include "purchase/solver.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 1500;

// The bound, and what the plan's bundles add to it; bundles with several combinations of swaps add nothing here.
double claimed(const ExactModel& model, const WideLook& look, const Plan& plan) {
  std::vector<int> columns_of(model.problem->bundles.size(), 0);
  for (const BundleColumn& column : model.columns) ++columns_of[column.bundle];
  double sum = look.bound;
  for (std::size_t c = 0; c < model.columns.size(); ++c) {
    const int bundle = model.columns[c].bundle;
    if (columns_of[bundle] == 1) sum += look.left[c] * static_cast<double>(plan.bundles[bundle].count);
  }
  return sum;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_wide_bound_never_exceeds_the_optimum) {
  int compared = 0, near = 0, with_bundles = 0;
  for (unsigned seed = 1; seed <= kBooks; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    const OfferBook book = random.made.book();
    const PurchaseProblem problem = build_problem(book, random.limits);
    const Solved best = solve_by_enumeration(problem, {5, std::nullopt});
    if (!best.proven) continue;
    const ModelAnswer answer = arrange(problem, best.plan->family);
    if (!answer.model) continue;
    const WideLook look = look_wide(*answer.model);
    const auto cost = static_cast<double>(rank(problem, *best.plan)->cost);
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_TEST(claimed(*answer.model, look, *best.plan) / answer.model->measure.minor <= cost);
    }
    ++compared;
    near += look.bound / answer.model->measure.minor > 0.7 * cost;
    with_bundles += std::any_of(best.plan->bundles.begin(), best.plan->bundles.end(),
                                [](const BundleCount& line) { return line.count > 0; });
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << near << " near, " << with_bundles << " with bundles");
  BOOST_TEST(compared > 20);
  if (TEETALLY_EVERY == 1) BOOST_TEST(near > compared / 10);
  if (TEETALLY_EVERY == 1) BOOST_TEST(with_bundles > 20);
}

// Orders of class C go this way: a plan that keeps the rules, and a bound close below it.
BOOST_AUTO_TEST_CASE(large_orders_get_a_plan_and_a_bound) {
  for (const bench::ProblemClass& of : bench::problem_classes()) {
    if (of.name != "C" || TEETALLY_EVERY > 1) continue;
    const PurchaseProblem problem = bench::generate(of, 1, false, false);
    const Solved solved = solve_exactly(problem, {60, std::nullopt});
    BOOST_REQUIRE(solved.plan.has_value());
    const auto found = rank(problem, *solved.plan);
    BOOST_REQUIRE(found.has_value());
    BOOST_TEST(solved.lower_bound <= found->cost);
    BOOST_TEST(found->cost - solved.lower_bound < found->cost / 200);
  }
}
