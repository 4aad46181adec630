// What must hold for any purchase: more on offer never costs more, less to buy never costs more, the order of
// catalogs does not matter. Infeasible counts as dearer than anything.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <limits>

#include "exhaustive/random_book.h"
#include "places.h"

using namespace teetally;
using namespace teetally::test;

namespace {

constexpr unsigned kBooks = 400;
constexpr unsigned kFirstSeed = 100'001;  // other books than the agreement tests use

std::int64_t cost_of(const OfferBook& book, const BuyLimits& limits = {}) {
  const Purchase purchase = buy(book, limits);
  if (purchase.outcome != Outcome::bought) return std::numeric_limits<std::int64_t>::max();
  BOOST_TEST(purchase.proof.proven);
  return purchase.total.minor;
}

OfferBook without_last_catalog(OfferBook book) {
  const int last = static_cast<int>(book.catalogs.size()) - 1;
  const auto sold_there = [&](const Serving& serving) { return book.items[serving.item].catalog == last; };
  std::erase_if(book.servings, sold_there);
  book.catalogs.pop_back();
  return book;
}

OfferBook with_catalogs_reversed(OfferBook book) {
  const int last = static_cast<int>(book.catalogs.size()) - 1;
  std::reverse(book.catalogs.begin(), book.catalogs.end());
  for (BookItem& item : book.items) item.catalog = last - item.catalog;
  return book;
}

}  // namespace

BOOST_AUTO_TEST_CASE(a_catalog_more_never_raises_the_cost) {
  int cheaper = 0;
  for (unsigned seed = kFirstSeed; seed < kFirstSeed + kBooks; seed += TEETALLY_EVERY) {
    const OfferBook book = random_purchase(seed).made.book();
    if (book.catalogs.size() < 2) continue;
    const std::int64_t with = cost_of(book), without = cost_of(without_last_catalog(book));
    BOOST_TEST(with <= without, "seed " << seed);
    cheaper += with < without;
  }
  BOOST_TEST(cheaper > 0);
}

BOOST_AUTO_TEST_CASE(a_need_less_never_raises_the_cost) {
  int cheaper = 0;
  for (unsigned seed = kFirstSeed; seed < kFirstSeed + kBooks; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    OfferBook book = random.made.book();
    const std::int64_t all = cost_of(book, random.limits);
    book.takeoff.needs[seed % book.takeoff.needs.size()].amount = 0;
    const std::int64_t fewer = cost_of(book, random.limits);
    BOOST_TEST(fewer <= all, "seed " << seed);
    cheaper += fewer < all;
  }
  BOOST_TEST(cheaper > 0);
}

BOOST_AUTO_TEST_CASE(the_order_of_catalogs_does_not_matter) {
  for (unsigned seed = kFirstSeed; seed < kFirstSeed + kBooks / 2; seed += TEETALLY_EVERY) {
    const RandomPurchase random = random_purchase(seed);
    const OfferBook book = random.made.book();
    BOOST_TEST(cost_of(book, random.limits) == cost_of(with_catalogs_reversed(book), random.limits), "seed " << seed);
  }
}
