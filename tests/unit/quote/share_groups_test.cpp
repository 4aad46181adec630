// Published cost-sharing examples, each with its source beside it.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <map>
#include <random>

#include "teetally/base/simplex.h"
#include "teetally/quote/shares.h"

using namespace teetally;

namespace {

// Costs by the letters of the groups' members.
GroupCosts by_letters(const std::string& letters, const std::map<std::string, double>& costs) {
  GroupCosts groups;
  groups.members = static_cast<int>(letters.size());
  groups.cost.assign(1U << letters.size(), 0);
  for (const auto& [group, cost] : costs) {
    std::size_t mask = 0;
    for (const char member : group) mask |= 1U << letters.find(member);
    groups.cost[mask] = cost;
  }
  return groups;
}

template <typename Cost>
GroupCosts by_formula(int members, Cost cost) {
  GroupCosts groups;
  groups.members = members;
  for (std::uint32_t group = 0; group < 1U << members; ++group) {
    std::vector<int> in;
    for (int i = 0; i < members; ++i) {
      if ((group >> i & 1U) != 0) in.push_back(i);
    }
    groups.cost.push_back(in.empty() ? 0 : cost(in));
  }
  return groups;
}

void near(const std::vector<double>& found, const std::vector<double>& expected, double tolerance) {
  BOOST_REQUIRE(found.size() == expected.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    BOOST_TEST(std::abs(found[i] - expected[i]) <= tolerance, i << ": " << found[i] << ", expected " << expected[i]);
  }
}

// Young, Okada and Hashimoto, IIASA WP-79-77 (1979), and Water Resources Research 18(3):463-475, 1982: six towns'
// joint water supply. The table is from memory; it reproduces the published stand-alone and marginal costs.
GroupCosts six_towns() {
  return by_letters(
      "AHKLMT",
      {{"A", 21.95},     {"H", 17.08},     {"K", 10.91},     {"L", 15.88},     {"M", 20.81},     {"T", 21.98},
       {"AH", 34.69},    {"AK", 32.86},    {"AL", 37.83},    {"AM", 42.76},    {"AT", 43.93},    {"HK", 22.96},
       {"HL", 25.00},    {"HM", 37.89},    {"HT", 39.06},    {"KL", 26.79},    {"KM", 31.45},    {"KT", 32.89},
       {"LM", 31.10},    {"LT", 37.86},    {"MT", 39.41},    {"AHK", 40.74},   {"AHL", 43.22},   {"AHM", 55.50},
       {"AHT", 56.67},   {"AKL", 48.74},   {"AKM", 53.40},   {"AKT", 54.85},   {"ALM", 53.05},   {"ALT", 59.81},
       {"AMT", 61.36},   {"HKL", 27.26},   {"HKM", 42.55},   {"HKT", 44.94},   {"HLM", 45.81},   {"HLT", 46.98},
       {"HMT", 56.49},   {"KLM", 42.01},   {"KLT", 48.77},   {"KMT", 50.32},   {"LMT", 51.46},   {"AHKL", 48.95},
       {"AHKM", 60.25},  {"AHKT", 62.72},  {"AHLM", 64.03},  {"AHLT", 65.20},  {"AHMT", 74.10},  {"AKLM", 63.96},
       {"AKLT", 70.72},  {"AKMT", 72.27},  {"ALMT", 73.41},  {"HKLM", 48.07},  {"HKLT", 49.24},  {"HKMT", 59.35},
       {"HLMT", 64.41},  {"KLMT", 56.61},  {"AHKLM", 69.76}, {"AHKLT", 70.93}, {"AHKMT", 77.42}, {"AHLMT", 83.00},
       {"AKLMT", 73.97}, {"HKLMT", 66.46}, {"AHKLMT", 83.82}});
}

}  // namespace

BOOST_AUTO_TEST_SUITE(share_groups)

// Littlechild and Owen, Management Science 20(3):370-372, 1973; the example of the encyclopaedia article "Airport
// problem". The nucleolus is computed from the definition.
BOOST_AUTO_TEST_CASE(an_airport_of_four_aircraft) {
  const std::vector<double> runway = {8, 11, 13, 18};
  const GroupCosts airport = by_formula(4, [&](const std::vector<int>& in) { return runway[in.back()]; });
  near(average_marginal_cost(airport), {2, 3, 4, 9}, 1e-9);
  near(nucleolus(airport), {3.25, 3.25, 3.25, 8.25}, 1e-6);
  BOOST_TEST(worst_group(airport, {2, 3, 4, 9}).excess <= 1e-9);
}

// Aumann and Maschler, Journal of Economic Theory 36:195-213, 1985: three claims on an estate too small.
BOOST_AUTO_TEST_CASE(three_claims_on_an_estate) {
  const std::vector<double> claims = {100, 200, 300};
  const std::map<double, std::vector<double>> awards = {
      {100, {100 / 3.0, 100 / 3.0, 100 / 3.0}}, {200, {50, 75, 75}}, {300, {50, 100, 150}}};
  for (const auto& [estate, award] : awards) {
    const GroupCosts game = by_formula(3, [&, e = estate](const std::vector<int>& in) {
      double others = 600;
      for (const int i : in) others -= claims[i];
      return -std::max(0.0, e - others);
    });
    std::vector<double> paid = nucleolus(game);
    for (double& each : paid) each = -each;
    near(paid, award, 1e-6);
  }
  const GroupCosts game = by_formula(3, [&](const std::vector<int>& in) {
    double others = 600;
    for (const int i : in) others -= claims[i];
    return std::max(0.0, 200 - others);
  });
  near(average_marginal_cost(game), {100 / 3.0, 250 / 3.0, 250 / 3.0}, 1e-9);
}

BOOST_AUTO_TEST_CASE(six_towns_and_their_water) {
  const GroupCosts towns = six_towns();
  near(average_marginal_cost(towns), {20.01, 10.71, 6.61, 10.37, 16.94, 19.18}, 0.02);
  const WorstGroup worst = worst_group(towns, {20.01, 10.71, 6.61, 10.37, 16.94, 19.18});
  BOOST_TEST(worst.members == 0b001110U);  // H, K and L
  BOOST_TEST(std::abs(worst.excess - 0.43) < 1e-9);
  near(nucleolus(towns), {20.35, 12.06, 5.00, 8.61, 18.32, 19.49}, 0.01);
  const auto equal = equal_saving(towns);
  BOOST_REQUIRE(equal.has_value());
  BOOST_TEST(std::abs(equal->spread - 0.2523) < 5e-5);
  BOOST_TEST(worst_group(towns, equal->paid).excess < 1e-6);
  near(equal->paid, {19.18, 10.61, 6.78, 9.87, 18.18, 19.20}, 0.01);
}

// Made here: one piece each, singles at 2, packs of two at 3. Any two pay 3 together, all three 5.
BOOST_AUTO_TEST_CASE(no_fair_split_exists) {
  const GroupCosts packs = by_formula(3, [](const std::vector<int>& in) {
    return in.size() == 1 ? 2 : in.size() == 2 ? 3 : 5;
  });
  BOOST_TEST(!equal_saving(packs).has_value());
  near(nucleolus(packs), {5 / 3.0, 5 / 3.0, 5 / 3.0}, 1e-6);
  BOOST_TEST(std::abs(worst_group(packs, nucleolus(packs)).excess - 1 / 3.0) < 1e-6);
}

// Blazewicz and others, Int. J. Appl. Math. Comput. Sci. 20(2):385-390, 2010: five books in six shops; the groups'
// costs and splits were computed from its table in exact arithmetic.
BOOST_AUTO_TEST_CASE(five_books_bought_together) {
  const GroupCosts books = by_letters(
      "abcde", {{"a", 28},     {"b", 49},     {"c", 27},     {"d", 57},    {"e", 57},     {"ab", 67},    {"ac", 55},
                {"ad", 76},    {"ae", 83},    {"bc", 74},    {"bd", 97},   {"be", 104},   {"cd", 81},    {"ce", 74},
                {"de", 113},   {"abc", 94},   {"abd", 115},  {"abe", 124}, {"acd", 103},  {"ace", 102},  {"ade", 133},
                {"bcd", 123},  {"bce", 121},  {"bde", 154},  {"cde", 131}, {"abcd", 142}, {"abce", 141}, {"abde", 172},
                {"acde", 150}, {"bcde", 171}, {"abcde", 189}});
  near(nucleolus(books), {64 / 3.0, 127 / 3.0, 22, 154 / 3.0, 52}, 1e-6);
  near(average_marginal_cost(books), {21.817, 42.400, 21.817, 51.067, 51.900}, 0.0005);
  const WorstGroup worst = worst_group(books, average_marginal_cost(books));
  BOOST_TEST(worst.members == 0b01011U);  // a, b and d
  BOOST_TEST(std::abs(worst.excess - 0.283) < 0.0005);
  const auto equal = equal_saving(books);
  BOOST_REQUIRE(equal.has_value());
  BOOST_TEST(std::abs(equal->spread - 0.0227) < 5e-5);
  BOOST_TEST(worst_group(books, equal->paid).excess < 1e-6);
}

// The help of the R package Inventorymodel: joint orders of three firms at 600 an order. Its "share the order cost"
// split, 2 a m_i^2 / sqrt(sum m^2), overcharges nobody.
BOOST_AUTO_TEST_CASE(joint_orders_of_three_firms) {
  const std::vector<double> demand = {500, 300, 400}, holding = {9.6, 11, 10};
  const GroupCosts orders = by_formula(3, [&](const std::vector<int>& in) {
    double sum = 0;
    for (const int i : in) sum += 2 * 600 * demand[i] * holding[i];
    return std::sqrt(sum);
  });
  near({orders.cost[1], orders.cost[2], orders.cost[4]}, {2400, 1989.975, 2190.890}, 0.001);
  near({orders.cost[3], orders.cost[5], orders.cost[6], orders.cost[7]}, {3117.691, 3249.615, 2959.730, 3810.512},
       0.001);
  BOOST_TEST(worst_group(orders, {1511.608, 1039.230, 1259.674}).excess < 0);
  BOOST_TEST(worst_group(orders, nucleolus(orders)).excess <=
             worst_group(orders, {1511.608, 1039.230, 1259.674}).excess + 1e-6);
}

// The help of the R package coopProductGame: two products, two resources, three owners. Their shares by the
// resources' prices (the Owen point) are 230, 282 and 480.
BOOST_AUTO_TEST_CASE(owners_of_resources_are_paid_by_their_prices) {
  LinearProgram production;
  production.gains = {68, 52};
  production.rows = {{{{0, 4}, {1, 5}}, 70}, {{{0, 6}, {1, 2}}, 72}};
  const LinearAnswer answer = maximise(production);
  BOOST_TEST(std::abs(answer.value - 992) < 1e-9);
  near(answer.x, {10, 6}, 1e-9);
  near(answer.prices, {8, 6}, 1e-9);
  const std::vector<std::pair<double, double>> owned = {{4, 33}, {6, 39}, {60, 0}};
  std::vector<double> paid;
  for (const auto& [first, second] : owned) paid.push_back(first * answer.prices[0] + second * answer.prices[1]);
  near(paid, {230, 282, 480}, 1e-9);
}

// Where some split overcharges nobody, the nucleolus is one; where none does, no split's worst group is better off.
BOOST_AUTO_TEST_CASE(no_split_treats_its_worst_group_better_than_the_nucleolus) {
  std::mt19937 dice(20);
  std::uniform_int_distribution<int> step(0, 30);
  for (int game = 0; game < 200; ++game) {
    const GroupCosts groups =
        by_formula(4, [&](const std::vector<int>& in) { return 20.0 * static_cast<double>(in.size()) + step(dice); });
    const std::vector<double> paid = nucleolus(groups);
    const double worst = worst_group(groups, paid).excess;
    for (int other = 0; other < 200; ++other) {
      std::vector<double> split = paid;
      const double move = step(dice) / 4.0;
      split[step(dice) % 4] += move;
      split[step(dice) % 4] -= move;
      BOOST_TEST(worst_group(groups, split).excess >= worst - 1e-5);
    }
    BOOST_TEST(equal_saving(groups).has_value() == (worst <= 1e-6));
  }
}

BOOST_AUTO_TEST_SUITE_END()
