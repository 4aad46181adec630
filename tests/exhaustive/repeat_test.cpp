// The same purchase again and again: memory does not grow, and the answer is the same to the last pack, whatever was
// solved before and wherever in memory things lie. Catalogs in another order are another purchase of the same worth.
#include <malloc.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <memory>
#include <numeric>
#include <random>

#include "bench/purchase/classes.h"
#include "exhaustive/random_book.h"
#include "places.h"
#include "purchase/build_problem.h"
#include "purchase/solver.h"
#include "teetally/render.h"

using namespace teetally;
using namespace teetally::bench;
using namespace teetally::test;

namespace {

constexpr std::size_t kBooks = 250, kFirstRounds = 4, kRounds = 40;  // 1,000 and 10,000 purchases
constexpr std::size_t kSlack = 65'536;                               // bytes
constexpr unsigned kFirstSeed = 300'001;                             // other books than other tests use

std::vector<RandomPurchase> some_books() {
  std::vector<RandomPurchase> books;
  for (std::size_t i = 0; i < kBooks; ++i) {
    books.push_back(random_purchase(kFirstSeed + static_cast<unsigned>(i)));
    books.back().limits.engine = "exact";
  }
  return books;
}

std::int64_t buy_all(const std::vector<RandomPurchase>& books, std::size_t rounds) {
  std::int64_t sum = 0;
  for (std::size_t round = 0; round < rounds; ++round) {
    for (const RandomPurchase& of : books) sum += buy(of.made.book(), of.limits).total.minor;
  }
  return sum;
}

PurchaseProblem household(unsigned seed, bool tiers, bool families) {
  return generate(problem_classes().front(), seed, tiers, families);
}

bool same_plan(const Plan& a, const Plan& b) {
  const auto same = [](const BundleCount& x, const BundleCount& y) {
    return x.count == y.count && x.changed == y.changed;
  };
  return a.lots == b.lots && a.family == b.family && a.joins == b.joins &&
         std::equal(a.bundles.begin(), a.bundles.end(), b.bundles.begin(), b.bundles.end(), same);
}

// Suppliers, and what each sells, the other way round or mixed.
PurchaseProblem with_suppliers_mixed(PurchaseProblem problem, unsigned seed) {
  std::minstd_rand dice(seed);
  std::vector<int> place(problem.suppliers.size());
  std::iota(place.begin(), place.end(), 0);
  std::shuffle(place.begin(), place.end(), dice);
  std::vector<SupplierTerms> suppliers(problem.suppliers.size());
  for (std::size_t s = 0; s < place.size(); ++s) suppliers[place[s]] = problem.suppliers[s];
  problem.suppliers = std::move(suppliers);
  for (PackOffer& offer : problem.packs) offer.supplier = place[offer.supplier];
  for (BundleOffer& offer : problem.bundles) offer.supplier = place[offer.supplier];
  std::shuffle(problem.packs.begin(), problem.packs.end(), dice);
  std::shuffle(problem.bundles.begin(), problem.bundles.end(), dice);
  return problem;
}

}  // namespace

// What the allocator keeps at hand for the next request counts as in use, hence the slack; the least that one purchase
// could leave behind is a block of 32 bytes, nearly 300,000 in all. Under the sanitizers a leak is reported when the
// program ends, and the allocator asked here is not in use.
BOOST_AUTO_TEST_CASE(ten_thousand_purchases_leave_nothing_behind) {
  const std::vector<RandomPurchase> books = some_books();
  const std::int64_t first = buy_all(books, TEETALLY_EVERY == 1 ? kFirstRounds : 1);
  BOOST_TEST(first > 0);
  if (TEETALLY_EVERY > 1) return;
  const std::size_t before = mallinfo2().uordblks + mallinfo2().hblkhd;
  const std::int64_t rest = buy_all(books, kRounds - kFirstRounds);
  const std::size_t after = mallinfo2().uordblks + mallinfo2().hblkhd;
  BOOST_TEST(rest * static_cast<std::int64_t>(kFirstRounds) ==
             first * static_cast<std::int64_t>(kRounds - kFirstRounds));
  BOOST_TEST(after <= before + kSlack, before << " bytes in use after 1,000 purchases, " << after << " after 10,000");
}

BOOST_AUTO_TEST_CASE(the_same_purchase_has_the_same_answer) {
  std::vector<std::unique_ptr<char[]>> elsewhere;  // moves what is allocated later
  for (unsigned seed = 1; seed <= 60; seed += TEETALLY_EVERY) {
    const PurchaseProblem problem = household(seed, seed % 2 == 0, seed % 3 == 0);
    const Solved one = solve_exactly(problem, {600, first_plan(problem)});
    for (std::size_t i = 1; i < 40; ++i) elsewhere.push_back(std::make_unique<char[]>(16 * i + seed));
    const Solved other = solve_exactly(problem, {600, first_plan(problem)});
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_REQUIRE((one.plan && other.plan));
      BOOST_TEST(same_plan(*one.plan, *other.plan));
      BOOST_TEST(one.nodes == other.nodes);
      BOOST_TEST(one.lower_bound == other.lower_bound);
      BOOST_TEST(one.rests_on == other.rests_on);
    }
  }
}

BOOST_AUTO_TEST_CASE(the_same_book_makes_the_same_bytes) {
  const std::vector<RandomPurchase> books = some_books();
  for (std::size_t i = 0; i < books.size(); i += TEETALLY_EVERY) {
    const OfferBook book = books[i].made.book();
    const Purchase one = buy(book, books[i].limits), other = buy(book, books[i].limits);
    BOOST_TEST(order_csv({book, one}, UnitSystem::metric) == order_csv({book, other}, UnitSystem::metric),
               "book " << i);
  }
}

BOOST_AUTO_TEST_CASE(suppliers_and_offers_in_any_order_cost_the_same) {
  int settled = 0;
  for (unsigned seed = 1; seed <= 60; seed += TEETALLY_EVERY) {
    const PurchaseProblem problem = household(seed, seed % 2 == 0, seed % 3 == 0);
    const PurchaseProblem mixed = with_suppliers_mixed(problem, seed);
    const Solved one = solve_exactly(problem, {600, first_plan(problem)});
    const Solved other = solve_exactly(mixed, {600, first_plan(mixed)});
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_REQUIRE((one.proven && other.proven));
      const auto rank_one = rank(problem, *one.plan), rank_other = rank(mixed, *other.plan);
      BOOST_TEST(rank_one->cost == rank_other->cost);
      if (!one.ties_settled || !other.ties_settled) continue;
      ++settled;
      BOOST_TEST((*rank_one == *rank_other));
    }
  }
  BOOST_TEST(settled > 0);
}
