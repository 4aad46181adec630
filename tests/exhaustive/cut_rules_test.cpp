// Cut rules inside the exact search, against counting every plan: tiny purchases of tubing and couplings with random
// rules about coils, bundles and joins, under families and shipping thresholds. The cost, and where the search calls
// the ties settled the whole rank, must be that of the enumeration; "infeasible" must be so.
#include <boost/test/unit_test.hpp>
#include <random>

#include "places.h"
#include "purchase/count_limits.h"
#include "purchase/exact/rules.h"
#include "purchase/solver.h"

using namespace teetally;

namespace {

enum Product { kShort, kLong, kOther, kCoupling, kTwoInOne, kProducts };
enum Need { kTubing, kSecond, kCouplings };

class Maker {
 public:
  explicit Maker(unsigned seed) : dice_(seed) {}

  PurchaseProblem make() {
    problem_.needs = {between(2, 9), chance(3) ? between(1, 4) : 0, between(0, 2)};
    problem_.joins = {{kCouplings, between(0, 2)}};
    if (chance(2)) problem_.families = {2};
    for (int p = 0; p < kProducts; ++p) problem_.products.push_back({p % 2, p, p, p != kCoupling});
    for (const int product : {kShort, kLong, kOther, kTwoInOne}) serve(kTubing, product);
    serve(kSecond, kTwoInOne);
    problem_.servings.push_back({kCouplings, kCoupling, {}});
    for (int s = 0; s < 2; ++s) add_terms();
    for (int p = 0; p < kProducts; ++p) add_pack(p);
    if (chance(2)) add_bundle();
    for (std::int64_t r = between(1, 3); r > 0; --r) add_rule();
    return problem_;
  }

 private:
  std::int64_t between(int low, int high) {
    return low + static_cast<std::int64_t>(dice_() % static_cast<unsigned>(high - low + 1));
  }
  bool chance(int in) { return between(1, in) == 1; }

  void serve(int need, int product) {
    ServingOption serving{need, product, {}};
    // The last coil fits one family only.
    if (!problem_.families.empty() && product == kOther) serving.conditions.push_back({0, {true, false}});
    problem_.servings.push_back(serving);
  }

  void add_terms() {
    SupplierTerms terms;
    const std::int64_t limit = between(200, 900), fee = between(0, 150);
    terms.brackets = {{0, limit - 1, 0, fee}, {limit, kMostGoods, chance(3) ? 100'000 : 0, 0}};
    terms.tax_ppm = chance(2) ? 72'500 : 0;
    problem_.suppliers.push_back(terms);
  }

  void add_pack(int product) {
    const std::int64_t content = product == kCoupling ? 1 : between(1, 4);
    PackOffer offer;
    offer.supplier = static_cast<int>(between(0, 1));
    offer.product = product;
    offer.packs_per_lot = chance(4) ? 2 : 1;
    offer.content = content * offer.packs_per_lot;
    offer.prices.push_back({1, 0, between(40, 90) * content});
    if (chance(4)) offer.prices.push_back({2, 0, offer.prices[0].each * 8 / 10});
    offer.most = offer.needed = between(2, 4);
    problem_.packs.push_back(offer);
  }

  void add_bundle() {
    BundleOffer bundle;
    bundle.supplier = static_cast<int>(between(0, 1));
    bundle.price = between(100, 300);
    bundle.most = between(1, 2);
    bundle.parts.push_back({static_cast<int>(between(0, 2)), between(1, 4), {}});
    if (chance(2)) bundle.parts[0].choices.push_back({kTwoInOne, between(0, 40), 0});
    bundle.parts.push_back({kCoupling, 1, {}});
    if (chance(2)) bundle.parts[1].choices.push_back({-1, -between(0, 30), -1});
    problem_.bundles.push_back(bundle);
  }

  // Coils that are counted are those that the cutting would see: all that serve the tubing.
  Reach random_reach() {
    Reach reach;
    for (std::size_t i = 0; i < problem_.packs.size(); ++i) {
      if (problem_.packs[i].product == kCoupling) continue;
      CountTerm term;
      term.pack = static_cast<int>(i);
      term.each = between(0, 3) * problem_.packs[i].packs_per_lot;
      reach.terms.push_back(term);
    }
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) {
      for (int choice = -1; choice < static_cast<int>(problem_.bundles[b].parts[0].choices.size()); ++choice) {
        reach.terms.push_back({-1, static_cast<int>(b), 0, choice, -1, between(0, 3)});
      }
    }
    if (chance(2)) reach.terms.push_back({-1, -1, -1, -1, 0, between(1, 3)});
    reach.least = between(1, 9);
    return reach;
  }

  void add_rule() {
    CutRule rule;
    // Under the second family the last coil serves nothing, and no rule of its cutting would count it.
    if (!problem_.families.empty()) rule.when = {{0, 0}};
    for (std::int64_t sums = chance(4) ? 2 : 1; sums > 0; --sums) rule.any_of.push_back(random_reach());
    problem_.cut_rules.push_back(rule);
  }

  std::minstd_rand dice_;
  PurchaseProblem problem_;
};

// The same purchase with lengths in tens, its tubing in pieces of which few fit into a coil, and no rules yet.
void cut_into_pieces(PurchaseProblem& problem, unsigned seed) {
  std::minstd_rand dice(seed);
  problem.cut_rules.clear();
  problem.least_joined = 4;
  problem.pieces.resize(problem.needs.size());
  problem.site_coils.resize(problem.needs.size());
  problem.join_of_need = {0, dice() % 2 == 0 ? 0 : -1, -1};
  problem.joins[0].most = 4;
  for (const int need : {kTubing, kSecond}) {
    std::int64_t total = 0;
    for (std::int64_t left = problem.needs[need] * 10; left > 0;) {
      const std::int64_t length = std::min<std::int64_t>(left, 5 + static_cast<std::int64_t>(dice() % 12));
      problem.pieces[need].push_back({length, dice() % 2 == 0, false, static_cast<int>(problem.pieces[need].size())});
      total += length;
      left -= length;
    }
    problem.needs[need] = total;
  }
  for (PackOffer& offer : problem.packs) {
    if (offer.product != kCoupling) offer.content *= 10;
    offer.most = kMostGoods;
  }
  for (BundleOffer& bundle : problem.bundles) {
    bundle.parts[0].content *= 10;
    bundle.most = kMostGoods;
  }
  limit_counts(problem);
}

bool is_own(const Solved& solved) { return solved.rests_on.starts_with("own exact search"); }

}  // namespace

BOOST_AUTO_TEST_CASE(purchases_with_cut_rules_agree_with_counting_every_plan) {
  int own = 0, joined = 0, impossible = 0;
  for (unsigned seed = 1; seed <= 1500; seed += TEETALLY_EVERY) {
    const PurchaseProblem problem = Maker(seed).make();
    const Solved every = solve_by_enumeration(problem, {60, std::nullopt});
    const Solved mine = solve_exactly(problem, {60, std::nullopt});
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_REQUIRE(every.plan.has_value() == mine.plan.has_value());
      own += is_own(mine) ? 1 : 0;
      impossible += mine.infeasible ? 1 : 0;
      if (!mine.plan) continue;
      BOOST_TEST(mine.proven);
      const Rank counted = *rank(problem, *every.plan), found = *rank(problem, *mine.plan);
      BOOST_TEST(found.cost == counted.cost);
      BOOST_TEST(mine.lower_bound == counted.cost);
      if (mine.ties_settled) BOOST_TEST((found == counted));
      joined += mine.plan->joins[0] > 0 ? 1 : 0;
    }
  }
  BOOST_TEST_MESSAGE(own << " by the search itself, " << joined << " with joins, " << impossible << " impossible");
  if (TEETALLY_EVERY == 1) BOOST_TEST((own >= 1400 && joined >= 50 && impossible >= 20));
}

BOOST_AUTO_TEST_CASE(rules_that_follow_from_others_are_not_counted_twice) {
  PurchaseProblem problem;
  const auto rule = [](std::int64_t first, std::int64_t second, std::int64_t least) {
    return CutRule{{}, {{{{0, -1, -1, -1, -1, first}, {1, -1, -1, -1, -1, second}}, least}}};
  };
  problem.cut_rules = {rule(1, 1, 2), rule(2, 2, 6), rule(0, 1, 1), rule(1, 1, 3)};
  const std::vector<Reach> sums = counted_sums(problem);
  BOOST_REQUIRE(sums.size() == 2);
  BOOST_TEST(sums[0].least == 3);
  BOOST_TEST(counted_in(sums[0], 1) == 1);
  BOOST_TEST(sums[1].least == 1);
  BOOST_TEST(counted_in(sums[1], 0) == 0);
}

// Whole purchases with pieces to cut, rules found on the way: the search and CBC, each with its own rules.
BOOST_AUTO_TEST_CASE(purchases_with_pieces_agree_with_another_engine) {
  int own = 0, ruled = 0, compared = 0;
  for (unsigned seed = 1; seed <= 60; seed += TEETALLY_EVERY) {
    PurchaseProblem problem = Maker(seed).make();
    cut_into_pieces(problem, seed);
    const Solved total = solve_exactly(problem, {20, std::nullopt});
    const Solved mine = solve_whole(*find_engine("exact"), problem, {20, std::nullopt});
    const Solved other = solve_whole(*find_engine("cbc"), problem, {20, std::nullopt});
    BOOST_TEST_CONTEXT("seed " << seed) {
      own += is_own(mine) ? 1 : 0;
      if (!mine.plan || !other.plan || !mine.proven || !other.proven) continue;
      ++compared;
      const std::int64_t cost = rank(problem, *mine.plan)->cost;
      BOOST_TEST(cost == rank(problem, *other.plan)->cost);
      ruled += total.plan && rank(problem, *total.plan)->cost < cost ? 1 : 0;
    }
  }
  BOOST_TEST_MESSAGE(compared << " compared, " << own << " by the search itself, dearer by rules: " << ruled);
  if (TEETALLY_EVERY == 1) BOOST_TEST((compared >= 50 && own >= 50 && ruled >= 10));
}
