// What must hold for any pool: shares add up, nobody pays more than alone, no group is overcharged beyond the stated
// ceiling, and neither order nor names decide anything but ties between equals.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <numeric>
#include <random>

#include "places.h"
#include "unit/quote/random_pool.h"

using namespace teetally;
using namespace teetally::test;

namespace {

using Whole = std::vector<std::int64_t>;

Shares shared(const MadePool& made, ShareRule rule) {
  return share_out(made.total, made.baskets, made.alone, made.sharers, made.prices, rule);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(share_rules)

// OpenStax, Contemporary Mathematics, section 11.4 (apportionment): 27 items over six weights; 70 lights over three
// areas, which plain rounding makes 71.
BOOST_AUTO_TEST_CASE(whole_units_add_up) {
  BOOST_TEST(apportion(27, {13, 12, 5, 16, 7, 9}) == (Whole{6, 5, 2, 7, 3, 4}), boost::test_tools::per_element());
  BOOST_TEST(apportion(70, {15, 9, 10}) == (Whole{31, 18, 21}), boost::test_tools::per_element());
  BOOST_TEST(apportion(10, {0, 0, 0}) == (Whole{4, 3, 3}), boost::test_tools::per_element());
  BOOST_TEST(apportion(5, {}).empty());
  BOOST_TEST(to_whole({1.5, 1.5, 1.0}, 4) == (Whole{2, 1, 1}), boost::test_tools::per_element());
  BOOST_TEST(to_whole({2.9999999, 3.0000001}, 6) == (Whole{3, 3}), boost::test_tools::per_element());
}

// Made here: one piece each, singles at 2.00, packs of two at 3.00. The list values a piece at 1.50 and leaves 0.50.
BOOST_AUTO_TEST_CASE(packs_of_two_for_three) {
  HandMadeBook shop;
  const int s = shop.shop({});
  shop.need(3, {shop.item(s, {pack_of(1, 200), pack_of(2, 300)})});
  MadePool made;
  made.book = shop.book();
  made.baskets = {{{0, 1}}};
  made.sharers = {{"a", 0}, {"b", 0}, {"c", 0}};
  buy_made(made);
  BOOST_TEST(made.total.minor == 500);
  const Shares shares = shared(made, ShareRule::price_list);
  BOOST_TEST(shares.listed.minor == 450);
  BOOST_TEST(shares.shares[0].paid.minor == 167);
  BOOST_TEST(shares.shares[2].paid.minor == 166);
  BOOST_TEST(shares.largest_top_up.minor == 17);
  const auto groups = buy_as_groups(made.book, made.baskets, made.sharers, BuyLimits(), 1);
  BOOST_REQUIRE(groups.has_value());
  BOOST_TEST(!equal_saving(*groups).has_value());
}

// Every group of six members against its own proven order; the ceiling is what the shares state.
BOOST_AUTO_TEST_CASE(no_group_is_overcharged_beyond_the_ceiling) {
  std::mt19937 dice(7);
  int looked_at = 0;
  const int pools = std::max(1, 4 / TEETALLY_EVERY);
  BuyLimits in_peace;
  in_peace.seconds = 900;
  for (int pool = 0; pool < pools; ++pool) {
    const MadePool made = random_pool(dice, 6);
    const Shares shares = shared(made, ShareRule::price_list);
    BOOST_TEST((paid_in_all(shares) == made.total));
    BOOST_TEST(shares.pay_more == 0, "pool " << pool);
    const auto groups = buy_as_groups(made.book, made.baskets, made.sharers, in_peace, 2);
    BOOST_REQUIRE(groups.has_value());
    for (std::uint32_t group = 1; group < groups->cost.size(); ++group) {
      double paid = 0, top_ups = 0;
      for (std::size_t i = 0; i < made.sharers.size(); ++i) {
        if ((group >> i & 1U) == 0) continue;
        paid += static_cast<double>(shares.shares[i].paid.minor);
        top_ups += static_cast<double>(shares.shares[i].top_up.minor);
      }
      BOOST_TEST(paid - groups->cost[group] <= top_ups + static_cast<double>(shares.rounding.minor) + 1e-6,
                 "pool " << pool << " group " << group);
      ++looked_at;
    }
  }
  BOOST_TEST(looked_at == pools * 63);
}

BOOST_AUTO_TEST_CASE(every_rule_adds_up) {
  std::mt19937 dice(11);
  for (int pool = 0; pool < 3; ++pool) {
    const MadePool made = random_pool(dice, 25);
    for (const ShareRule rule : {ShareRule::price_list, ShareRule::alone, ShareRule::use, ShareRule::equal}) {
      BOOST_TEST((paid_in_all(shared(made, rule)) == made.total));
    }
    BOOST_TEST(shared(made, ShareRule::price_list).pay_more == 0);
  }
}

// Totals of nothing, of a cent, of fewer cents than sharers, and of more than all would pay alone.
BOOST_AUTO_TEST_CASE(every_rule_adds_up_to_the_last_cent) {
  std::mt19937 dice(12);
  MadePool made = random_pool(dice, 7);
  made.baskets.emplace_back();  // one that wants nothing
  made.alone.push_back({{}, {}, Outcome::bought});
  made.sharers.push_back({"nothing", static_cast<int>(made.baskets.size()) - 1});
  const Money whole = made.total;
  for (const std::int64_t total : {std::int64_t{0}, std::int64_t{1}, std::int64_t{2}, std::int64_t{6}, std::int64_t{8},
                                   whole.minor - 1, whole.minor + 1, 10 * whole.minor + 7}) {
    made.total = {total};
    for (const ShareRule rule : {ShareRule::price_list, ShareRule::alone, ShareRule::use, ShareRule::equal}) {
      const Shares shares = shared(made, rule);
      BOOST_TEST((paid_in_all(shares) == made.total));
      for (const Share& share : shares.shares) BOOST_TEST((share.paid >= Money{}));
      BOOST_TEST((shares.shares.back().paid == Money{}), to_text(rule) << " of " << total);
    }
  }
}

// Splits that were computed, brought to whole cents: never a cent lost, whatever there is to split.
BOOST_AUTO_TEST_CASE(computed_splits_add_up_to_the_last_cent) {
  std::mt19937 dice(14);
  for (int i = 0; i < 2000; ++i) {
    const int members = std::uniform_int_distribution<int>(1, 9)(dice);
    const std::int64_t total = std::uniform_int_distribution<int>(0, i % 2 == 0 ? 12 : 100'000)(dice);
    std::vector<double> quotas;
    double sum = 0;
    for (int m = 0; m < members; ++m) {
      quotas.push_back(std::uniform_int_distribution<int>(m == 0 ? 1 : 0, 50)(dice));
      sum += quotas.back();
    }
    for (double& quota : quotas) quota *= static_cast<double>(total) / sum;
    const Whole parts = to_whole(quotas, total);
    BOOST_TEST(std::accumulate(parts.begin(), parts.end(), std::int64_t{0}) == total);
    for (std::size_t m = 0; m < quotas.size(); ++m) {
      BOOST_TEST(std::abs(static_cast<double>(parts[m]) - quotas[m]) < 1 + 1e-6);
    }
  }
}

BOOST_AUTO_TEST_CASE(order_and_names_decide_nothing) {
  std::mt19937 dice(13);
  for (int pool = 0; pool < 3; ++pool) {
    MadePool made = random_pool(dice, 17);
    const Shares before = shared(made, ShareRule::price_list);
    std::vector<std::size_t> order(made.sharers.size());
    std::iota(order.begin(), order.end(), 0U);
    std::shuffle(order.begin(), order.end(), dice);
    MadePool other = made;
    for (std::size_t i = 0; i < order.size(); ++i) other.sharers[i] = made.sharers[order[i]];
    const Shares moved = shared(other, ShareRule::price_list);
    for (std::size_t i = 0; i < order.size(); ++i) {
      BOOST_TEST((moved.shares[i].paid == before.shares[order[i]].paid));
    }
    // Other names: equals may change places, and nobody else.
    for (std::size_t i = 0; i < order.size(); ++i) other.sharers[i].name = "x" + std::to_string(i);
    const Shares renamed = shared(other, ShareRule::price_list);
    for (int b = 0; b < 3; ++b) {
      Whole first, second;
      for (std::size_t i = 0; i < order.size(); ++i) {
        if (made.sharers[i].basket == b) first.push_back(before.shares[i].paid.minor);
        if (other.sharers[i].basket == b) second.push_back(renamed.shares[i].paid.minor);
      }
      std::sort(first.begin(), first.end());
      std::sort(second.begin(), second.end());
      BOOST_TEST(first == second, boost::test_tools::per_element());
    }
  }
}

BOOST_AUTO_TEST_CASE(a_plot_that_wants_nothing_changes_nothing) {
  std::mt19937 dice(17);
  MadePool made = random_pool(dice, 9);
  for (const ShareRule rule : {ShareRule::price_list, ShareRule::alone, ShareRule::use, ShareRule::equal}) {
    const Shares before = shared(made, rule);
    MadePool more = made;
    more.baskets.emplace_back();
    more.alone.push_back({{}, {}, Outcome::bought});
    more.sharers.insert(more.sharers.begin(), {"nobody", static_cast<int>(more.baskets.size()) - 1});
    const Shares after = shared(more, rule);
    BOOST_TEST(after.shares[0].paid.minor == 0);
    for (std::size_t i = 0; i < before.shares.size(); ++i) {
      BOOST_TEST((after.shares[i + 1].paid == before.shares[i].paid));
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
