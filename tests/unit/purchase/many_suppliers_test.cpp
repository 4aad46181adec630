// Orders of a few parts at many suppliers whose shipping is free from some goods value on. To a plain bound all of them
// ship free; the search has to ask first which supplier gets the largest order.
#include <boost/test/unit_test.hpp>

#include "purchase/exact/largest.h"
#include "purchase/solver.h"

using namespace teetally;

BOOST_AUTO_TEST_SUITE(many_suppliers)

namespace {

// Each supplier sells every need in packs of one, at prices that differ; shipping is free from `free_from` on.
PurchaseProblem shops(int suppliers, int needs, std::int64_t free_from) {
  PurchaseProblem problem;
  problem.needs.assign(static_cast<std::size_t>(needs), 2);
  for (int s = 0; s < suppliers; ++s) {
    SupplierTerms terms;
    terms.brackets = {{0, free_from - 1, 0, 700 + 10 * s}, {free_from, kMostGoods, 0, 0}};
    terms.tax_ppm = 50'000;
    terms.catalog = s;
    problem.suppliers.push_back(terms);
    for (int n = 0; n < needs; ++n) {
      const auto product = static_cast<int>(problem.products.size());
      problem.products.push_back({s, n, -1, false});
      problem.servings.push_back({n, product, {}});
      PackOffer pack;
      pack.supplier = s;
      pack.product = product;
      pack.content = 1;
      pack.prices = {{1, 0, 300 + (s * 37 + n * 53) % 90}};
      pack.needed = 2;
      pack.most = 40;
      pack.catalog = s;
      pack.item = n;
      pack.pack = 0;
      problem.packs.push_back(pack);
    }
  }
  return problem;
}

SearchNode root_of(const ExactModel& model) { return Bound(model).first_node({}); }

}  // namespace

BOOST_AUTO_TEST_CASE(parts_stand_where_two_orders_would_be_too_dear) {
  const PurchaseProblem problem = shops(3, 4, 4'000);
  const ModelAnswer model = arrange(problem, {}, measure_of(problem, 6'000));
  BOOST_REQUIRE(model.model);
  const SearchNode root = root_of(*model.model);
  // An order in the free bracket costs 4,200 with its tax: more than half of 8,399, not more than half of 8,400.
  BOOST_TEST(parts_by_largest(*model.model, root, 8'399).size() == 3U);
  BOOST_TEST(parts_by_largest(*model.model, root, 8'400).empty());
  for (const Bound::Split& part : parts_by_largest(*model.model, root, 8'399)) BOOST_TEST(part.at == 2U);
}

BOOST_AUTO_TEST_CASE(one_supplier_is_not_parted) {
  const PurchaseProblem problem = shops(1, 4, 4'000);
  const ModelAnswer model = arrange(problem, {}, measure_of(problem, 6'000));
  BOOST_REQUIRE(model.model);
  BOOST_TEST(parts_by_largest(*model.model, root_of(*model.model), 6'000).empty());
}

BOOST_AUTO_TEST_CASE(both_engines_agree) {
  for (const std::int64_t free_from : {3'000, 4'000, 5'000}) {
    const PurchaseProblem problem = shops(6, 6, free_from);
    const Solved exact = solve_exactly(problem, {60, first_plan(problem), nullptr});
    const Solved other = solve_with_cbc(problem, {60, first_plan(problem), nullptr});
    BOOST_REQUIRE(exact.proven);
    BOOST_REQUIRE(other.proven);
    BOOST_TEST(exact.lower_bound == other.lower_bound);
  }
}

// Without asking for the largest order first these take 65 and 95 nodes.
BOOST_AUTO_TEST_CASE(few_nodes_are_enough) {
  for (const std::int64_t free_from : {7'245, 9'660}) {
    const PurchaseProblem problem = shops(12, 14, free_from);
    const Solved exact = solve_exactly(problem, {60, first_plan(problem), nullptr});
    BOOST_TEST(exact.proven);
    BOOST_TEST(exact.nodes < 30);
  }
}

BOOST_AUTO_TEST_SUITE_END()
