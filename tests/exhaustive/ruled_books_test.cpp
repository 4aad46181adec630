// Cut rules inside the exact search, on the random books in which thresholds dominate: swaps, parts left out, minimum
// orders and price breaks together with rules about what serves one need. Against trying everything.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <random>

#include "exhaustive/random_book.h"
#include "places.h"
#include "purchase/build_problem.h"
#include "purchase/solver.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kProblems = 1500;

struct Dice {
  std::mt19937 source;
  int roll(int low, int high) { return std::uniform_int_distribution<int>(low, high)(source); }
};

using When = std::vector<std::pair<int, int>>;

bool serves(const PurchaseProblem& problem, int product, int need, const When& when) {
  return std::any_of(problem.servings.begin(), problem.servings.end(), [&](const ServingOption& s) {
    return s.need == need && s.product == product &&
           std::all_of(s.conditions.begin(), s.conditions.end(),
                       [&](const FamilyCondition& c) { return c.allowed[when[c.system].second]; });
  });
}

Reach random_reach(const PurchaseProblem& problem, int need, const When& when, Dice& dice) {
  Reach reach;
  for (std::size_t p = 0; p < problem.packs.size(); ++p) {
    if (serves(problem, problem.packs[p].product, need, when) && dice.roll(0, 3) > 0) {
      reach.terms.push_back({static_cast<int>(p), -1, -1, -1, -1, dice.roll(0, 3)});
    }
  }
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    for (std::size_t p = 0; p < problem.bundles[b].parts.size(); ++p) {
      const BundlePart& part = problem.bundles[b].parts[p];
      if (serves(problem, part.product, need, when)) {
        reach.terms.push_back({-1, static_cast<int>(b), static_cast<int>(p), -1, -1, dice.roll(0, 3)});
      }
      for (std::size_t c = 0; c < part.choices.size(); ++c) {
        if (part.choices[c].product < 0 || !serves(problem, part.choices[c].product, need, when)) continue;
        reach.terms.push_back({-1, static_cast<int>(b), static_cast<int>(p), static_cast<int>(c), -1, dice.roll(0, 3)});
      }
    }
  }
  for (std::size_t j = 0; j < problem.joins.size(); ++j) {
    if (dice.roll(0, 1) == 0) reach.terms.push_back({-1, -1, -1, -1, static_cast<int>(j), dice.roll(1, 2)});
  }
  reach.least = dice.roll(1, 7);
  return reach;
}

void add_rules(PurchaseProblem& problem, Dice& dice) {
  std::vector<int> needs;  // a rule speaks of pieces that are needed
  for (std::size_t n = 0; n < problem.needs.size(); ++n) {
    if (problem.needs[n] > 0) needs.push_back(static_cast<int>(n));
  }
  if (needs.empty()) return;
  const auto any_need = [&] { return needs[dice.roll(0, static_cast<int>(needs.size()) - 1)]; };
  if (dice.roll(0, 2) == 0) problem.joins.push_back({any_need(), dice.roll(1, 3)});
  for (int rule = dice.roll(1, 3); rule > 0; --rule) {
    CutRule& made = problem.cut_rules.emplace_back();
    for (std::size_t system = 0; system < problem.families.size(); ++system) {
      made.when.emplace_back(static_cast<int>(system), dice.roll(0, std::max(problem.families[system], 1) - 1));
    }
    const int need = any_need();
    for (int sums = dice.roll(0, 3) == 0 ? 2 : 1; sums > 0; --sums) {
      made.any_of.push_back(random_reach(problem, need, made.when, dice));
    }
  }
}

bool held_by_exact(const Solved& solved) { return solved.rests_on.find("own exact search") == 0; }

}  // namespace

BOOST_AUTO_TEST_CASE(random_books_with_cut_rules_agree_with_counting_every_plan) {
  int compared = 0, dearer = 0, joined = 0, impossible = 0, elsewhere = 0;
  for (unsigned seed = 1; seed <= kProblems; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    PurchaseProblem problem = build_problem(random.made.book(), random.limits);
    if (problem.needs.empty()) continue;
    const PurchaseProblem eased = problem;
    Dice dice{std::mt19937(seed)};
    add_rules(problem, dice);
    const Solved slow = solve_by_enumeration(problem, {0.5, std::nullopt});
    if (!slow.proven && !slow.infeasible) continue;
    const Solved quick = solve_exactly(problem, {10, std::nullopt});
    if (!held_by_exact(quick)) {
      ++elsewhere;
      continue;
    }
    ++compared;
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_TEST(quick.infeasible == slow.infeasible);
      impossible += slow.infeasible;
      if (slow.infeasible || quick.infeasible) continue;
      BOOST_REQUIRE(quick.plan.has_value());
      BOOST_TEST(quick.proven);
      const auto best = rank(problem, *slow.plan), found = rank(problem, *quick.plan);
      BOOST_REQUIRE(found.has_value());
      BOOST_TEST(found->cost == best->cost);
      if (quick.ties_settled) BOOST_TEST((*found == *best));
      joined += std::any_of(quick.plan->joins.begin(), quick.plan->joins.end(), [](auto n) { return n > 0; });
      const auto without = solve_exactly(eased, {10, std::nullopt});
      if (without.plan) dearer += rank(eased, *without.plan)->cost < best->cost;
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << dearer << " dearer for their rules, " << joined << " with joins, "
                              << impossible << " impossible, " << elsewhere << " not held");
  if (TEETALLY_EVERY == 1) {
    BOOST_TEST(compared > 400);
    BOOST_TEST(dearer > 50);
    BOOST_TEST(joined > 4);
    BOOST_TEST(impossible > 10);
  }
}
