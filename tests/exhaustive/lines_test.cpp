// Long lists of single lines at many suppliers, small enough for another engine: the search over suppliers must be
// proven, and neither dearer than what the other finds nor bounded above it.
#include "purchase/exact/lines.h"

#include <boost/test/unit_test.hpp>

#include "bench/purchase/classes.h"
#include "places.h"
#include "purchase/solver.h"

using namespace teetally;

namespace {

PurchaseProblem small_list(unsigned seed, int lines, int suppliers) {
  bench::ProblemClass of{"list", lines, suppliers, 0, 1, 1, 1, 8, 20, false, true};
  return bench::generate(of, seed, false, false);
}

}  // namespace

BOOST_AUTO_TEST_CASE(lists_of_single_lines_agree_with_another_engine) {
  int proven = 0, at_a_threshold = 0;
  for (unsigned seed = 1; seed <= 90; seed += TEETALLY_EVERY) {
    const PurchaseProblem problem = small_list(seed, 6 + static_cast<int>(seed % 40), 8 + static_cast<int>(seed % 3));
    const ModelAnswer model = arrange(problem, {});
    BOOST_REQUIRE(model.model && is_line_list(*model.model));
    const Solved mine = solve_exactly(problem, {20, std::nullopt}), other = solve_with_cbc(problem, {20, std::nullopt});
    BOOST_TEST_CONTEXT("seed " << seed) {
      BOOST_REQUIRE(mine.plan && other.plan);
      const std::int64_t cost = rank(problem, *mine.plan)->cost, others = rank(problem, *other.plan)->cost;
      BOOST_TEST(mine.lower_bound <= others);
      if (mine.proven) BOOST_TEST(cost <= others);
      if (mine.proven && other.proven) BOOST_TEST(cost == others);
      proven += mine.proven ? 1 : 0;
      const std::vector<std::int64_t> goods = goods_of(problem, *mine.plan);
      for (std::size_t s = 0; s < goods.size(); ++s) at_a_threshold += goods[s] > 0 && goods[s] < 15000 ? 1 : 0;
    }
  }
  BOOST_TEST_MESSAGE(proven << " proven, " << at_a_threshold << " orders near thresholds");
  if (TEETALLY_EVERY == 1) BOOST_TEST(proven >= 88);
}

// Longer lists: the search over needs, which a limit to the number of suppliers asks for, must agree.
BOOST_AUTO_TEST_CASE(longer_lists_agree_with_the_search_over_needs) {
  if (TEETALLY_EVERY > 1) return;
  for (unsigned seed = 1; seed <= 2; ++seed) {
    const PurchaseProblem problem = small_list(seed, 100, 20);
    PurchaseProblem limited = problem;
    limited.most_suppliers = 20;
    const Solved mine = solve_exactly(problem, {60, std::nullopt}), other = solve_exactly(limited, {60, std::nullopt});
    BOOST_REQUIRE(mine.plan && other.plan);
    BOOST_TEST((mine.proven && other.proven));
    BOOST_TEST(rank(problem, *mine.plan)->cost == rank(limited, *other.plan)->cost);
  }
}
