// What a pooled order says of what plots would pay alone, where that is not known to the minor unit.
#include <boost/test/unit_test.hpp>

#include "render/pool/parts.h"
#include "render/pool/words.h"

using namespace teetally;

namespace {

PoolResult two_plots(Money cost, Money least) {
  PoolResult result;
  result.pool.currency = {"USD", 2};
  result.purchase.outcome = Outcome::bought;
  result.purchase.total = Money{2500};
  result.alone.push_back({cost, least, Outcome::bought});
  for (int plot = 0; plot < 2; ++plot) {
    result.pool.plots.emplace_back();
    result.plots.push_back({plot, 0, {}, {}});
    result.shares.least_alone += least;
  }
  return result;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(pool_words)

BOOST_AUTO_TEST_CASE(what_is_proven_is_said_plainly) {
  BOOST_TEST(pool_summary(two_plots(Money{2000}, Money{2000})) ==
             "USD 25.00 for 2 plots from 0 suppliers. Each alone: 40.00. The pool saves 15.00, 37.5 %.");
}

BOOST_AUTO_TEST_CASE(what_is_not_proven_is_said_from_both_sides) {
  BOOST_TEST(pool_summary(two_plots(Money{2000}, Money{1800})) ==
             "USD 25.00 for 2 plots from 0 suppliers. Each alone: 40.00 by the best orders found, 36.00 at least. The "
             "pool saves between 11.00 and 15.00.");
  BOOST_TEST(pool_summary(two_plots(Money{2000}, Money{1000})).find("saves between 0.00 and 15.00.") !=
             std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_member_is_told_whether_the_figure_is_the_cheapest_there_is) {
  MemberAccount account;
  account.alone = Money{2000};
  account.own = Money{1250};
  BOOST_TEST(member_saving_words(account, {"USD", 2}) ==
             "Own parts alone would cost 20.00; the pool saves 7.50 on them.");
  account.proven = false;
  BOOST_TEST(member_saving_words(account, {"USD", 2}) ==
             "Own parts alone would cost 20.00 by the best order found; the pool saves 7.50 on them.");
  account.known = false;
  BOOST_TEST(member_saving_words(account, {"USD", 2}).empty());
}

BOOST_AUTO_TEST_CASE(a_pool_that_costs_more_says_so) {
  BOOST_TEST(pool_summary(two_plots(Money{1000}, Money{1000})).find("Buying together costs 5.00 more: ") !=
             std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
