#include <boost/test/data/test_case.hpp>
#include <boost/test/unit_test.hpp>

#include "unit/purchase/hand_made_book.h"

using namespace teetally;
using namespace teetally::test;

namespace {

// Shops that each sell everything in two packs, at prices between which there is something to choose.
OfferBook many_choices() {
  HandMadeBook made;
  std::vector<std::vector<int>> items(12);
  for (int s = 0; s < 4; ++s) {
    const int shop = made.shop(free_from(900 + 70 * s, 9000 + 500 * s));
    for (int n = 0; n < 12; ++n) {
      items[n].push_back(
          made.item(shop, {pack_of(3, 100 + (7 * n + 11 * s) % 23), pack_of(7, 190 + (5 * n + s) % 29)}));
    }
  }
  for (int n = 0; n < 12; ++n) made.need(20 + n, items[n]);
  return made.book();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(stop)

BOOST_DATA_TEST_CASE(a_search_that_is_stopped_answers_what_it_has, boost::unit_test::data::make(engine_names()),
                     engine) {
  const OfferBook book = many_choices();
  const std::atomic<bool> stop = true;
  BuyLimits limits;
  limits.engine = engine;
  limits.stop = &stop;
  const Purchase stopped = buy(book, limits);
  BOOST_TEST((stopped.outcome == Outcome::bought));
  BOOST_TEST(!stopped.proof.proven);
  BOOST_TEST(stopped.proof.lower_bound.minor < stopped.proof.cost.minor);
  limits.stop = nullptr;
  limits.engine = "exact";
  BOOST_TEST(buy(book, limits).proof.proven);
}

BOOST_AUTO_TEST_SUITE_END()
