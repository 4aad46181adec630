// The exact engine against brute force on the same tiny random books, thresholds dominating. What it calls
// proven must be the optimum to the minor unit, and of the optima the one with the fewest suppliers, then packs, then
// spares; what it calls infeasible must be so.
#include <boost/test/unit_test.hpp>

#include "exhaustive/brute_force.h"
#include "exhaustive/random_book.h"
#include "places.h"
#include "purchase/build_problem.h"
#include "purchase/solver.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 2400;
constexpr std::int64_t kDear = 200'000'000;

// So dear that the ranks after cost no longer fit between two minor units.
void make_dear(PurchaseProblem& problem) {
  for (PackOffer& offer : problem.packs) {
    for (LotPrice& price : offer.prices) price.base *= kDear, price.each *= kDear;
  }
  for (BundleOffer& bundle : problem.bundles) {
    bundle.price *= kDear;
    for (BundlePart& part : bundle.parts) {
      for (BundleChoice& choice : part.choices) choice.extra *= kDear;
    }
  }
  for (SupplierTerms& terms : problem.suppliers) {
    for (OrderBracket& bracket : terms.brackets) {
      bracket.from *= kDear, bracket.charge *= kDear;
      if (bracket.to < kMostGoods) bracket.to = (bracket.to + 1) * kDear - 1;
    }
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(exact_agrees_with_brute_force) {
  int open = 0, compared = 0, ties_open = 0;
  for (unsigned seed = 1; seed <= kBooks; seed += TEETALLY_EVERY) {
    RandomPurchase random = random_purchase(seed);
    random.limits.engine = "exact";
    random.limits.seconds = 10;
    const OfferBook book = random.made.book();
    const BruteAnswer brute = brute_force(book, random.limits);
    if (!brute.finished) continue;
    ++compared;
    BOOST_TEST_CONTEXT("seed " << seed) {
      const Purchase purchase = buy(book, random.limits);
      if (!brute.best) {
        BOOST_TEST((purchase.outcome != Outcome::bought));
        open += purchase.outcome == Outcome::out_of_time;
        continue;
      }
      BOOST_TEST((purchase.outcome != Outcome::infeasible));
      BOOST_TEST(purchase.proof.lower_bound.minor <= brute.best->cost);
      const bool proven = purchase.outcome == Outcome::bought && purchase.proof.proven;
      if (proven) {
        BOOST_TEST(purchase.total.minor == brute.best->cost);
        const BruteRank found = rank_of(purchase);
        if (purchase.proof.ties_settled) {
          BOOST_TEST(found.suppliers == brute.best->suppliers);
          BOOST_TEST(found.packs == brute.best->packs);
          BOOST_TEST(found.pieces == brute.best->pieces);
        }
        ties_open += !purchase.proof.ties_settled;
      } else {
        ++open;
      }
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << open << " left open, " << ties_open << " with ties open");
  BOOST_TEST(open == 0);
  BOOST_TEST(ties_open == 0);
}

// Lengths and large amounts, which the random books have none of.
BOOST_AUTO_TEST_CASE(exact_ranks_as_enumeration_does) {
  int compared = 0;
  for (unsigned seed = 3; seed <= kBooks; seed += 5 * TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    PurchaseProblem problem = build_problem(random.made.book(), random.limits);
    for (std::size_t i = 0; i < problem.products.size(); ++i) problem.products[i].by_length = (seed + i) % 2 == 0;
    if (seed % 3 == 0) make_dear(problem);
    const Solved slow = solve_by_enumeration(problem, {0.5, std::nullopt});
    if (!slow.proven) continue;
    ++compared;
    BOOST_TEST_CONTEXT("seed " << seed) {
      const Solved quick = solve_exactly(problem, {10, first_plan(problem)});
      BOOST_REQUIRE(quick.plan.has_value());
      BOOST_TEST(quick.ties_settled);
      BOOST_TEST((rank(problem, *quick.plan) == rank(problem, *slow.plan)));
    }
  }
  BOOST_TEST(compared > 200 / TEETALLY_EVERY);
}
