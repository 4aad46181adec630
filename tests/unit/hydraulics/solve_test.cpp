// The network solver in its limits: balance at nodes, energy round loops, any start, more pressure is more flow.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <random>

#include "hydraulics/network.h"

using namespace teetally::hydraulics;

namespace {

Outlet outlet(double rated, double at, double exponent) {
  Outlet law;
  law.rated = rated, law.rated_at = at, law.exponent = exponent;
  return law;
}

// A square grid with a source in one corner and an outlet at every other node; the middle rows climb.
Network grid(int side, double head, double exponent) {
  Network network;
  for (int i = 0; i < side * side; ++i) network.nodes.push_back({0.1 * (i / side), 0, std::nullopt});
  network.nodes[0].held_head = head;
  for (int i = 0; i < side * side; ++i) {
    const double inside = i % 3 == 0 ? 0.0043 : 0.0152;
    if (i % side + 1 < side) network.links.push_back({i, i + 1, 2.0, inside, quadratic_factor(0.9, inside)});
    if (i + side < side * side) network.links.push_back({i, i + side, 1.5, 0.0132, 0});
    if (i % 2 == 1) network.outlets.push_back({i, outlet(1e-6, 10, exponent)});
  }
  return network;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(solving)

BOOST_AUTO_TEST_CASE(what_enters_a_node_leaves_it_and_loops_close) {
  for (const double exponent : {0.0, 0.42, 0.5, 0.57, 1.0}) {
    const Network network = grid(9, 17, exponent);
    const Solution solution = solve(network);
    BOOST_TEST(solution.converged, exponent);
    std::vector<double> balance(network.nodes.size(), 0.0);
    for (std::size_t k = 0; k < network.links.size(); ++k) {
      const NetworkLink& link = network.links[k];
      balance[link.from] -= solution.flows[k];
      balance[link.to] += solution.flows[k];
      // Every link's loss is the difference of its ends' heads, so any loop's losses sum to nothing.
      const double loss = link_loss(network.law, link, solution.flows[k]).head;
      BOOST_TEST(std::abs(solution.heads[link.from] - solution.heads[link.to] - loss) < 1e-8);
    }
    for (std::size_t i = 0; i < network.outlets.size(); ++i)
      balance[network.outlets[i].node] -= solution.outlet_flows[i];
    for (std::size_t i = 1; i < balance.size(); ++i) BOOST_TEST(std::abs(balance[i]) < 1e-12);
  }
}

BOOST_AUTO_TEST_CASE(any_start_leads_to_the_same_answer) {
  const Network network = grid(7, 17, 0.5);
  const Solution usual = solve(network);
  std::mt19937 random(7);
  int most = 0;
  for (int trial = 0; trial < 50; ++trial) {
    Start start;
    for (std::size_t i = 0; i < network.nodes.size(); ++i)
      start.heads.push_back(0.01 * static_cast<double>(random() % 10000) - 30);
    for (std::size_t k = 0; k < network.links.size(); ++k)
      start.flows.push_back(1e-7 * static_cast<double>(random() % 20000) - 1e-3);
    const Solution solution = solve(network, start);
    BOOST_TEST(solution.converged);
    most = std::max(most, solution.iterations);
    for (std::size_t i = 0; i < network.nodes.size(); ++i)
      BOOST_TEST(std::abs(solution.heads[i] - usual.heads[i]) < 1e-6);
  }
  BOOST_TEST_MESSAGE("most iterations from a wild start: " << most);
  BOOST_TEST(most < 60);
}

BOOST_AUTO_TEST_CASE(more_pressure_is_more_flow) {
  double before = 0;
  for (double head = 2; head < 40; head += 1) {
    double total = 0;
    for (const double flow : solve(grid(5, head, 0.5)).outlet_flows) total += flow;
    BOOST_TEST(total > before);
    before = total;
  }
}

// A laminar row of compensating outlets, against the exact sum of falling flows.
BOOST_AUTO_TEST_CASE(compensating_row_is_the_exact_sum) {
  constexpr int kOutlets = 60;
  constexpr double kEach = 2e-7, kInside = 0.0152, kSpacing = 0.3;
  Network network;
  network.nodes.push_back({0, 0, 15.0});
  Outlet law = outlet(kEach, 10, 0);
  law.compensating = true, law.least = 7;
  double exact = 0;
  for (int i = 1; i <= kOutlets; ++i) {
    network.nodes.push_back({});
    network.links.push_back({i - 1, i, kSpacing, kInside, 0});
    network.outlets.push_back({i, law});
    exact += friction_loss(network.law, kSpacing, kInside, kEach * (kOutlets - i + 1)).head;
  }
  const Solution solution = solve(network);
  BOOST_TEST(solution.converged);
  BOOST_TEST(std::abs(15 - solution.heads.back() - exact) < 1e-8);
  BOOST_TEST(std::abs(solution.flows[0] - kOutlets * kEach) < 1e-15);
}

BOOST_AUTO_TEST_CASE(outlets_above_the_water_give_nothing) {
  Network network;
  network.nodes = {{0, 0, 5.0}, {0, 0, std::nullopt}, {9, 0, std::nullopt}};
  network.links = {{0, 1, 1, 0.01, 0}, {1, 2, 9, 0.01, 0}};
  network.outlets = {{1, outlet(1e-5, 10, 0.5)}, {2, outlet(1e-5, 10, 0.5)}};
  const Solution solution = solve(network);
  BOOST_TEST(solution.converged);
  BOOST_TEST(solution.outlet_flows[0] > 0);
  BOOST_TEST(solution.outlet_flows[1] == 0.0);
  BOOST_TEST(std::abs(solution.flows[1]) < 1e-12);
}

BOOST_AUTO_TEST_CASE(a_compensating_outlet_falls_off_below_its_range) {
  Outlet law = outlet(4e-7, 10, 0);
  law.compensating = true, law.least = 7;
  BOOST_TEST(outlet_flow(law, 30).flow == 4e-7);
  BOOST_TEST(outlet_flow(law, 7).flow == 4e-7);
  BOOST_TEST(std::abs(outlet_flow(law, 7.0 / 4).flow - 2e-7) < 1e-15);
  BOOST_TEST(outlet_flow(law, -1).flow == 0.0);
}

BOOST_AUTO_TEST_SUITE_END()
