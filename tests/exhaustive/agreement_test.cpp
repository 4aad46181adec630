// Three ways to the cheapest purchase must agree to the minor unit on thousands of tiny random books: the
// engines of the program, brute force written apart from it, and (on some) a second solver on the same linear
// model. Every plan also passes the audit, which buy() insists on.
#include <boost/test/unit_test.hpp>

#include "exhaustive/brute_force.h"
#include "exhaustive/random_book.h"
#include "exhaustive/second_solver.h"
#include "places.h"
#include "purchase/build_problem.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 3000;
constexpr unsigned kForSecondSolver = 9;  // one book in so many

void check_agreement(const OfferBook& book, const BuyLimits& limits, const BruteAnswer& brute) {
  const Purchase purchase = buy(book, limits);
  if (!brute.best) {
    BOOST_TEST((purchase.outcome == Outcome::infeasible));
    BOOST_TEST(!purchase.shortfalls.empty());
    return;
  }
  BOOST_REQUIRE((purchase.outcome == Outcome::bought));
  BOOST_TEST(purchase.total.minor == brute.best->cost);
  BOOST_TEST(purchase.proof.proven);
  if (!purchase.proof.ties_settled) return;
  const BruteRank found = rank_of(purchase);
  BOOST_TEST(found.suppliers == brute.best->suppliers);
  BOOST_TEST(found.packs == brute.best->packs);
  BOOST_TEST(found.pieces == brute.best->pieces);
}

}  // namespace

BOOST_AUTO_TEST_CASE(cbc_agrees_with_brute_force) {
  int unfinished = 0, infeasible = 0;
  for (unsigned seed = 1; seed <= kBooks; seed += TEETALLY_EVERY) {
    RandomPurchase random = random_purchase(seed);
    random.limits.engine = "cbc";
    const OfferBook book = random.made.book();
    const BruteAnswer brute = brute_force(book, random.limits);
    unfinished += !brute.finished;
    infeasible += brute.finished && !brute.best;
    if (!brute.finished) continue;
    BOOST_TEST_CONTEXT("seed " << seed) { check_agreement(book, random.limits, brute); }
  }
  BOOST_TEST_MESSAGE(unfinished << " books too large for brute force, " << infeasible << " infeasible");
  BOOST_TEST(unfinished < static_cast<int>(kBooks) / TEETALLY_EVERY / 4);
  BOOST_TEST(infeasible < static_cast<int>(kBooks) / TEETALLY_EVERY / 2);
}

BOOST_AUTO_TEST_CASE(a_second_solver_agrees_on_the_linear_model) {
  BOOST_TEST_REQUIRE(have_second_solver(), "glpsol is needed (Debian package glpk-utils)");
  for (unsigned seed = 1; seed <= kBooks; seed += kForSecondSolver * TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    const OfferBook book = random.made.book();
    const PurchaseProblem problem = build_problem(book, random.limits);
    const Purchase purchase = buy(book, random.limits);
    const LinearModel model = linear_model(problem, kMostGoods);
    const SecondAnswer second = solve_with_second(model, model.cost, std::string(TEETALLY_BUILD_DIR) + "/second");
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_TEST((second.optimal || second.infeasible));
      BOOST_TEST(second.infeasible == (purchase.outcome == Outcome::infeasible));
      if (second.optimal) BOOST_TEST(std::abs(second.objective - static_cast<double>(purchase.total.minor)) < 0.01);
    }
  }
}

BOOST_AUTO_TEST_CASE(both_engines_agree) {
  int compared = 0;
  for (unsigned seed = 2; seed <= kBooks; seed += kForSecondSolver * TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    const OfferBook book = random.made.book();
    BuyLimits by_enumeration = random.limits;
    by_enumeration.engine = "enumerate";
    by_enumeration.seconds = 0.5;
    const Purchase slow = buy(book, by_enumeration);
    if (slow.outcome != Outcome::bought || !slow.proof.proven) continue;
    BOOST_TEST(buy(book, random.limits).total.minor == slow.total.minor, "seed " << seed);
    ++compared;
  }
  BOOST_TEST(compared > 100 / TEETALLY_EVERY);
}
