// The search for large orders: its bounds never exceed an optimum that is known from trying everything or from the
// exact search, its plans keep the rules, and what it calls the least price of a cover is what a plain table says.
#include <boost/test/unit_test.hpp>
#include <random>

#include "bench/purchase/classes.h"
#include "exhaustive/random_book.h"
#include "places.h"
#include "purchase/build_problem.h"
#include "purchase/bulk/cover.h"
#include "purchase/cut/task.h"
#include "purchase/solver.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 2400;

// What the search claims about a problem whose least cost is known.
struct Claimed {
  double near_from = 0.9;  // of the optimum
  int near = 0, best = 0;
  void check(const PurchaseProblem& problem, std::int64_t optimum, const Solved& solved) {
    BOOST_TEST(!solved.infeasible);
    BOOST_TEST(solved.lower_bound <= optimum);
    near += static_cast<double>(solved.lower_bound) > near_from * static_cast<double>(optimum);
    if (!solved.plan) return;
    const auto found = rank(problem, *solved.plan);
    BOOST_REQUIRE(found.has_value());
    BOOST_TEST(found->cost >= optimum);
    if (solved.proven) BOOST_TEST(found->cost == optimum);
    best += found->cost == optimum;
  }
};

double plain_table(const std::vector<CoverItem>& items, std::int64_t amount) {
  std::vector<double> cost(static_cast<std::size_t>(amount) + 1, 0);
  for (std::int64_t v = 1; v <= amount; ++v) {
    double least = 1e300;
    for (const CoverItem& item : items) {
      least = std::min(least, cost[static_cast<std::size_t>(std::max<std::int64_t>(0, v - item.content))] + item.price);
    }
    cost[static_cast<std::size_t>(v)] = least;
  }
  return cost.back();
}

}  // namespace

BOOST_AUTO_TEST_CASE(bulk_bounds_hold_on_tiny_purchases) {
  int compared = 0;
  Claimed claimed;
  for (unsigned seed = 1; seed <= kBooks; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    const PurchaseProblem problem = build_problem(random.made.book(), random.limits);
    const Solved best = solve_by_enumeration(problem, {5, std::nullopt});
    if (!best.proven) continue;
    ++compared;
    BOOST_TEST_CONTEXT("seed " << seed) {
      claimed.check(problem, rank(problem, *best.plan)->cost, solve_in_bulk(problem, {5, first_plan(problem)}));
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << claimed.near << " near, " << claimed.best << " best");
  BOOST_TEST(compared > 20);
  if (TEETALLY_EVERY == 1) BOOST_TEST(claimed.near > compared / 4);
  if (TEETALLY_EVERY == 1) BOOST_TEST(claimed.best > compared / 4);
}

// Households are not what it is for: its bound lies well below.
BOOST_AUTO_TEST_CASE(bulk_bounds_hold_on_household_orders) {
  int compared = 0;
  Claimed claimed;
  claimed.near_from = 0.75;
  for (const bench::ProblemClass& of : bench::problem_classes()) {
    if (of.name != "H") continue;
    for (unsigned seed = 1; seed <= 40; seed += TEETALLY_EVERY) {
      const PurchaseProblem problem = bench::generate(of, seed, seed % 2 == 0, seed % 4 < 2);
      const Solved best = solve_exactly(problem, {10, std::nullopt});
      if (!best.proven) continue;
      ++compared;
      BOOST_TEST_CONTEXT("seed " << seed) {
        claimed.check(problem, rank(problem, *best.plan)->cost, solve_in_bulk(problem, {5, std::nullopt}));
      }
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << claimed.near << " near, " << claimed.best << " best");
  BOOST_TEST(compared > 0);
  if (TEETALLY_EVERY == 1) BOOST_TEST(claimed.near > compared / 2);
}

BOOST_AUTO_TEST_CASE(least_covers_are_those_of_a_plain_table) {
  std::mt19937 dice(7);
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  int by_remainders = 0, equal = 0;
  for (int i = 0; i < 60; i += TEETALLY_EVERY) {
    std::vector<CoverItem> items;
    const int count = roll(2, 6);
    for (int k = 0; k < count; ++k) {
      const std::int64_t content = roll(40, 4000);
      items.push_back({content, static_cast<double>(content) * roll(80, 100) / 100});
    }
    // Large amounts go over remainders where the items are few enough steps long.
    const std::int64_t amount = i % 3 == 0 ? roll(1, 5000) : roll(2'600'000, 5'200'000);
    const double table = plain_table(items, amount), least = least_cover(items, amount);
    BOOST_TEST(least <= table);
    equal += least > table * (1 - 1e-6);
    by_remainders += i % 3 != 0;
  }
  BOOST_TEST_MESSAGE(by_remainders << " over remainders, " << equal << " equal");
  if (TEETALLY_EVERY == 1) BOOST_TEST(equal == 60);
}

// No choice of pieces that fits is worth more than the bound, also where lengths are rounded to cells.
BOOST_AUTO_TEST_CASE(filling_bounds_hold) {
  std::mt19937 dice(11);
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  for (int i = 0; i < 40; i += TEETALLY_EVERY) {
    CutTask task;
    std::vector<std::int64_t> worth;
    for (int k = 0; k < 6; ++k) {
      const int length = roll(24'000, 38'000);
      task.pieces.push_back({length, 0, false, 100'000});
      worth.push_back(length / 100 + roll(0, 3));
    }
    const std::int64_t length = roll(1'000'000, 1'600'000);
    std::vector<std::int64_t> best(static_cast<std::size_t>(length) + 1, 0);
    for (std::size_t k = 0; k < worth.size(); ++k) {
      for (std::size_t v = static_cast<std::size_t>(task.pieces[k].length); v < best.size(); ++v) {
        best[v] = std::max(best[v], best[v - static_cast<std::size_t>(task.pieces[k].length)] + worth[k]);
      }
    }
    const std::int64_t bound = filling_bound(task, worth, length, 1);
    BOOST_TEST(bound >= best.back());
    BOOST_TEST(bound <= best.back() + best.back() / 1000);
    BOOST_TEST(dearest_filling(task, worth, length, 1).value <= best.back());
  }
}
