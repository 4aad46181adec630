// The exact engine against brute force on the same tiny random books, thresholds dominating. What it calls
// proven must be the optimum to the minor unit; what it calls infeasible must be so.
#include <boost/test/unit_test.hpp>

#include "exhaustive/brute_force.h"
#include "exhaustive/random_book.h"
#include "places.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 2400;

}  // namespace

BOOST_AUTO_TEST_CASE(exact_agrees_with_brute_force) {
  int open = 0, compared = 0;
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
      } else {
        ++open;
      }
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << open << " left open");
  BOOST_TEST(open == 0);
}
