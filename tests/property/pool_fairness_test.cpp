// Random groups of a pool's members, each bought for by itself: none is found to pay more above its own order than its
// top-ups, which is the ceiling that the shares state.
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <map>

#include "places.h"
#include "unit/quote/random_pool.h"

using namespace teetally;
using namespace teetally::test;

namespace {

// How many times as many pools are looked at; a longer run: POOL_TIMES=50 property --run_test=pool_fairness
int times_as_many(int pools) {
  const char* stated = std::getenv("POOL_TIMES");
  return std::max(1, pools / TEETALLY_EVERY) * std::max(1, stated == nullptr ? 1 : std::atoi(stated));
}

BuyLimits in_peace() {
  BuyLimits limits;
  limits.seconds = 900;
  limits.engine = "exact";
  return limits;
}

// The groups of one pool; groups of equal baskets are bought for once.
class Groups {
 public:
  explicit Groups(const MadePool& made)
      : made_(made),
        shares_(share_out(made.total, made.baskets, made.alone, made.sharers, made.prices, ShareRule::price_list)) {}

  const Shares& shares() const { return shares_; }

  void look_at(const std::vector<bool>& in) {
    std::vector<std::int64_t> times(made_.baskets.size(), 0);
    Money paid, ceiling = shares_.rounding;
    int members = 0;
    for (std::size_t i = 0; i < in.size(); ++i) {
      if (!in[i]) continue;
      ++times[made_.sharers[i].basket];
      paid += shares_.shares[i].paid;
      ceiling += shares_.shares[i].top_up;
      ++members;
    }
    if (members == 0) return;
    const Money excess = paid - cost_of(times);
    if (excess > ceiling) ++overcharged;
    ++looked_at;
    if (excess > worst) worst = excess, worst_ceiling = ceiling, worst_members = members;
    if (excess > Money{}) ++above;
  }

  std::int64_t looked_at = 0, above = 0, overcharged = 0;  // above their own order; beyond the ceiling
  Money worst, worst_ceiling;                              // of the group that pays most above its own order
  int worst_members = 0;

 private:
  Money cost_of(const std::vector<std::int64_t>& times) {
    const auto [found, is_new] = known_.try_emplace(times);
    if (is_new) {
      const Purchase purchase = buy(book_for(made_.book, made_.baskets, times), in_peace());
      BOOST_REQUIRE((purchase.outcome == Outcome::bought));
      BOOST_TEST(purchase.proof.proven);
      found->second = purchase.total;
    }
    return found->second;
  }

  const MadePool& made_;
  Shares shares_;
  std::map<std::vector<std::int64_t>, Money> known_;
};

void check_pool(const MadePool& made, const Shares& shares) {
  BOOST_TEST((paid_in_all(shares) == made.total));
  BOOST_TEST(shares.pay_more == 0);
  Money top_ups;
  for (const Share& share : shares.shares) {
    BOOST_TEST((share.top_up >= Money{}));
    BOOST_TEST((share.listed + share.top_up == share.paid));
    top_ups += share.top_up;
  }
  BOOST_TEST((top_ups == shares.top_ups));
}

void look_at_all(Groups& groups, unsigned members) {
  for (unsigned group = 1; group + 1 < 1U << members; ++group) {
    std::vector<bool> in;
    for (unsigned i = 0; i < members; ++i) in.push_back((group >> i & 1U) != 0);
    groups.look_at(in);
  }
}

void tell(const std::string& what, std::int64_t looked_at, std::int64_t above, const Groups& worst) {
  BOOST_TEST_MESSAGE(what << ": " << looked_at << " groups, " << above << " pay more than alone; the worst, of "
                          << worst.worst_members << ", by " << worst.worst.minor << " of " << worst.worst_ceiling.minor
                          << " allowed");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(pool_fairness)

// All 254 groups of eight members who differ, tubing cut from coils among their needs.
BOOST_AUTO_TEST_CASE(every_group_of_small_pools) {
  std::mt19937 dice(41);
  std::int64_t looked_at = 0;
  const int pools = times_as_many(12);
  for (int pool = 0; pool < pools; ++pool) {
    const MadePool made = random_pool(dice, 8, {8, pool % 2 == 0, in_peace(), false});
    Groups groups(made);
    check_pool(made, groups.shares());
    look_at_all(groups, 8);
    BOOST_TEST(groups.overcharged == 0);
    tell("pool " + std::to_string(pool), groups.looked_at, groups.above, groups);
    looked_at += groups.looked_at;
  }
  BOOST_TEST(looked_at == pools * 254);
}

// All 30 groups of five members where suppliers ask and offer whatever they may.
BOOST_AUTO_TEST_CASE(every_group_of_pools_with_all_terms) {
  std::mt19937 dice(53);
  for (int pool = times_as_many(6); pool > 0; --pool) {
    const MadePool made = random_pool(dice, 5, {5, false, in_peace(), true});
    Groups groups(made);
    check_pool(made, groups.shares());
    look_at_all(groups, 5);
    BOOST_TEST(groups.overcharged == 0);
    tell("pool with all terms", groups.looked_at, groups.above, groups);
  }
}

// The same eyes see a list that some order beats: here every price is half as much again.
BOOST_AUTO_TEST_CASE(a_list_that_is_too_dear_is_found_out) {
  std::mt19937 dice(47);
  MadePool made = random_pool(dice, 6, {6, false, in_peace(), false});
  for (std::int64_t& nanos : made.prices.nanos) nanos += nanos / 2;
  Groups groups(made);
  look_at_all(groups, 6);
  BOOST_TEST(groups.overcharged > 0);
}

// Groups of any size from pools of sixty: each member in with a chance of the group's own, or in by its basket.
BOOST_AUTO_TEST_CASE(random_groups_of_larger_pools) {
  std::mt19937 dice(43);
  const int pools = times_as_many(4), tries = 500;
  for (int pool = 0; pool < pools; ++pool) {
    const MadePool made = random_pool(dice, 60, {6, false, in_peace(), false});
    Groups groups(made);
    check_pool(made, groups.shares());
    for (int group = 0; group < tries; ++group) {
      const double chance = std::uniform_real_distribution<>(0.01, 0.99)(dice);
      std::vector<double> of_basket(made.baskets.size());
      for (double& each : of_basket) each = std::uniform_real_distribution<>(0, 1)(dice) < chance ? 1 : 0.05;
      std::vector<bool> in;
      for (const Sharer& sharer : made.sharers) {
        in.push_back(std::bernoulli_distribution(group % 2 == 0 ? chance : of_basket[sharer.basket])(dice));
      }
      groups.look_at(in);
    }
    BOOST_TEST(groups.overcharged == 0);
    tell("pool of sixty", groups.looked_at, groups.above, groups);
  }
}

BOOST_AUTO_TEST_SUITE_END()
