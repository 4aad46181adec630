// Needs that share products in many ways, against counting every plan: what the sums of exact/shared.h let through must
// be exactly what can be allotted, whichever products serve which needs.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <random>

#include "places.h"
#include "purchase/exact/shared.h"
#include "purchase/solver.h"

using namespace teetally;

namespace {

class Maker {
 public:
  explicit Maker(unsigned seed) : dice_(seed) {}

  PurchaseProblem make() {
    const int needs = between(2, 4), products = between(2, 5);
    for (int n = 0; n < needs; ++n) problem_.needs.push_back(between(1, 5));
    for (int p = 0; p < products; ++p) problem_.products.push_back({p % 2, p, p, false});
    for (int p = 0; p < products; ++p) {
      for (int n = 0; n < needs; ++n) {
        if (between(0, 1) == 1) problem_.servings.push_back({n, p, {}});
      }
    }
    for (int s = 0; s < 2; ++s) {
      const std::int64_t limit = between(20, 60);
      problem_.suppliers.push_back({{{0, limit - 1, 0, between(0, 9)}, {limit, kMostGoods, 0, 0}}, 0, false, true, s});
    }
    for (int p = 0; p < products; ++p) add_pack(p);
    if (between(0, 1) == 1) add_bundle();
    return problem_;
  }

 private:
  int between(int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice_); }
  int product() { return between(0, static_cast<int>(problem_.products.size()) - 1); }

  void add_pack(int product) {
    PackOffer offer;
    offer.supplier = between(0, 1);
    offer.product = product;
    offer.content = between(1, 3);
    offer.prices.push_back({1, 0, between(3, 9) * offer.content});
    if (between(0, 2) == 0) offer.prices.push_back({2, 0, offer.prices[0].each - 1});
    offer.most = offer.needed = between(1, 4);
    problem_.packs.push_back(offer);
  }

  void add_bundle() {
    BundleOffer bundle;
    bundle.supplier = between(0, 1);
    bundle.price = between(8, 25);
    bundle.most = 2;
    for (int part = 0; part < 2; ++part) {
      BundlePart& made = bundle.parts.emplace_back(BundlePart{product(), between(1, 3), {}});
      if (between(0, 1) == 1) made.choices.push_back({product(), between(0, 3), 0});
      if (between(0, 1) == 1) made.choices.push_back({-1, -between(0, 2), -1});
    }
    problem_.bundles.push_back(bundle);
  }

  std::mt19937 dice_;
  PurchaseProblem problem_;
};

}  // namespace

BOOST_AUTO_TEST_CASE(needs_that_share_products_agree_with_counting_every_plan) {
  int own = 0, impossible = 0, compared = 0;
  for (unsigned seed = 1; seed <= 1500; seed += TEETALLY_EVERY) {
    const PurchaseProblem problem = Maker(seed).make();
    const Solved every = solve_by_enumeration(problem, {10, std::nullopt});
    if (!every.proven && !every.infeasible) continue;
    ++compared;
    const Solved mine = solve_exactly(problem, {10, std::nullopt});
    BOOST_TEST_CONTEXT("seed " << seed) {
      own += mine.rests_on.starts_with("own exact search") ? 1 : 0;
      impossible += every.infeasible ? 1 : 0;
      BOOST_TEST(mine.infeasible == every.infeasible);
      if (every.infeasible || mine.infeasible) continue;
      BOOST_TEST(mine.proven);
      const Rank counted = *rank(problem, *every.plan), found = *rank(problem, *mine.plan);
      BOOST_TEST(found.cost == counted.cost);
      if (mine.ties_settled) BOOST_TEST((found == counted));
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << own << " by the search itself, " << impossible << " impossible");
  if (TEETALLY_EVERY == 1) BOOST_TEST((compared > 1000 && own > 1000 && impossible > 50));
}

// Two needs, one product for both and one for the first alone: the second need and both together must be asked for.
BOOST_AUTO_TEST_CASE(sets_that_follow_from_others_are_left_out) {
  PurchaseProblem problem;
  problem.products.resize(2);
  problem.packs.resize(2);
  problem.packs[0].product = 0, problem.packs[0].content = 4;
  problem.packs[1].product = 1, problem.packs[1].content = 6;
  const SharedNeeds shared = share_needs(problem, {5, 9}, {0b01, 0b11});
  BOOST_TEST(shared.unit == 2);
  BOOST_TEST(shared.total == 7);
  BOOST_TEST_REQUIRE(shared.sums.size() == 1u);
  BOOST_TEST(shared.sums[0].least == 5);  // the second need, rounded up to what packs can bring
  BOOST_TEST_REQUIRE(shared.sums[0].terms.size() == 1u);
  BOOST_TEST(shared.sums[0].terms[0].pack == 1);
  BOOST_TEST(shared.sums[0].terms[0].each == 3);
  BOOST_TEST(shared.states == 48);
}
