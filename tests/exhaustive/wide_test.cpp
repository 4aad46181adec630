// The linear split for large orders, on tiny purchases whose optimum is known by trying everything: its bound must not
// exceed the optimum, also not after adding what it says each bundle of the optimum costs beyond its worth. That sum is
// what limits to bundle counts rest on.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "bench/purchase/classes.h"
#include "exhaustive/random_book.h"
#include "places.h"
#include "purchase/build_problem.h"
#include "purchase/exact/wide_search.h"
#include "purchase/exact/wide_soft.h"
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

// What the plan takes of each column, where that is plain to see: no bundle has more than one combination of swaps.
std::optional<std::vector<int>> counts_of(const ExactModel& model, const Plan& plan) {
  std::vector<int> columns_of(model.problem->bundles.size(), 0), counts;
  for (const BundleColumn& column : model.columns) {
    if (++columns_of[column.bundle] > 1) return std::nullopt;
    counts.push_back(static_cast<int>(plan.bundles[column.bundle].count));
  }
  return counts;
}

// Whatever may cost as much as the best plan is kept: its counts are within the ranges, the model does not say that
// they cost more, and a search that finds nothing ends with a bound that does not exceed its cost. Answers that bound,
// in minor units.
double checked_search(const ExactModel& model, const Plan& best, std::int64_t cost) {
  const double reach = static_cast<double>(cost + 1) * model.measure.minor - 1;
  const WideTask task = wide_task(model, reach);
  if (const auto counts = counts_of(model, best)) {
    for (std::size_t c = 0; c < counts->size(); ++c) {
      BOOST_TEST(std::count(task.ranges[c].begin(), task.ranges[c].end(), (*counts)[c]) == 1);
    }
    BOOST_TEST(WideBound(task.model).cost(*counts) <= reach);
  }
  const WideAnswer answer = search_wide(task, reach, [&](const std::vector<int>&) { return reach; }, {Stopwatch(), 60});
  BOOST_TEST(answer.bound <= reach);
  return answer.bound / model.measure.minor;
}

}  // namespace

BOOST_AUTO_TEST_CASE(the_wide_bound_never_exceeds_the_optimum) {
  int compared = 0, near = 0, with_bundles = 0, raised = 0;
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
      const double searched = checked_search(*answer.model, *best.plan, rank(problem, *best.plan)->cost);
      raised += searched > look.bound / answer.model->measure.minor + 1;
    }
    ++compared;
    near += look.bound / answer.model->measure.minor > 0.7 * cost;
    with_bundles += std::any_of(best.plan->bundles.begin(), best.plan->bundles.end(),
                                [](const BundleCount& line) { return line.count > 0; });
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << near << " near, " << with_bundles << " with bundles, " << raised
                              << " raised");
  BOOST_TEST(compared > 20);
  if (TEETALLY_EVERY == 1) BOOST_TEST(near > compared / 10);
  if (TEETALLY_EVERY == 1) BOOST_TEST(with_bundles > 20);
  if (TEETALLY_EVERY == 1) BOOST_TEST(raised > compared / 10);
}

// The same where bundles matter more: household purchases, whose optimum the exact search proves.
BOOST_AUTO_TEST_CASE(the_search_over_counts_never_loses_the_optimum) {
  for (const bench::ProblemClass& of : bench::problem_classes()) {
    if (of.name != "H") continue;
    int compared = 0, raised = 0;
    for (unsigned seed = 1; seed <= 100; seed += TEETALLY_EVERY) {
      const PurchaseProblem problem = bench::generate(of, seed, seed % 2 == 0, false);
      const Solved best = solve_exactly(problem, {5, std::nullopt});
      const ModelAnswer answer = arrange(problem, best.plan->family);
      if (!best.proven || !answer.model) continue;
      BOOST_TEST_CONTEXT("seed " << seed) {
        const double searched = checked_search(*answer.model, *best.plan, best.lower_bound);
        raised += searched > look_wide(*answer.model).bound / answer.model->measure.minor + 1;
      }
      ++compared;
    }
    BOOST_TEST_MESSAGE(compared << " compared, " << raised << " raised");
    BOOST_TEST(compared >= 5);
    BOOST_TEST(raised > compared / 2);
  }
}

// Messages of softened costs are whole and sum to what columns cost, so that bounds of them are true; where ranges are
// long enough for it to matter, they lead to a better bound than sweeps alone.
BOOST_AUTO_TEST_CASE(a_softened_split_is_whole_and_true) {
  for (const bench::ProblemClass& of : bench::problem_classes()) {
    if (of.name != "H") continue;
    int compared = 0, better = 0;
    for (unsigned seed = 1; seed <= 100; seed += TEETALLY_EVERY) {
      const PurchaseProblem problem = bench::generate(of, seed, seed % 2 == 0, false);
      const Solved best = solve_exactly(problem, {5, std::nullopt});
      const ModelAnswer answer = arrange(problem, best.plan->family);
      if (!best.proven || !answer.model) continue;
      // Far enough for ranges to stay open.
      const double reach = static_cast<double>(best.lower_bound) * 1.1 * answer.model->measure.minor;
      const WideTask task = wide_task(*answer.model, reach);
      if (task.ranges.empty() || task.ranges.front().empty()) continue;
      WideBound bound(task.model);
      WideNode hard = bound.first_node(task.ranges, task.unit_worth), soft = hard;
      BOOST_TEST_CONTEXT("seed " << seed) {
        if (!soften(task.model, soft, task.unit_worth, 0.0005 * reach, 20, {Stopwatch(), 60})) continue;
        for (std::size_t c = 0; c < soft.counts.size(); ++c) {
          for (std::size_t a = 0; a < soft.counts[c].size() && !soft.messages[c].empty(); ++a) {
            double sum = 0;
            for (const Table& message : soft.messages[c]) {
              BOOST_TEST(message[a] == std::floor(message[a]));
              sum += message[a];
            }
            BOOST_TEST(sum == task.model.price[c] * soft.counts[c][a]);
          }
        }
        for (int i = 0; i < 20; ++i) {
          BOOST_TEST(bound.sweep(hard, i % 2 == 0, reach));
        }
        for (int i = 0; i < 20; ++i) {
          BOOST_TEST(bound.sweep(soft, i % 2 == 0, reach));
        }
        BOOST_TEST(soft.bound <= (static_cast<double>(best.lower_bound) + 1) * answer.model->measure.minor);
        better += soft.bound > hard.bound;
      }
      ++compared;
    }
    BOOST_TEST_MESSAGE(compared << " compared, " << better << " better");
    BOOST_TEST(compared >= 5);
    BOOST_TEST(better > compared / 2);
  }
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
    BOOST_TEST(found->cost - solved.lower_bound < found->cost / 3500);
  }
}
