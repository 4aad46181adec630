// Random trees and looped networks against the EPANET 2.3.5 engine: hydraulics_networks.txt was written by
// hydraulics_networks.mjs. Heads agree within 0.1 %; flows and head losses are held to the same, where they are
// not tiny. Laminar networks use the engine's Darcy-Weisbach formula, which is Hagen-Poiseuille below Re 2000; its
// kinematic viscosity is 1.1e-5 square feet per second and its gravity 32.2 feet per second squared, so that its losses
// are 0.08 % below ours for the same water; the viscosity given here takes that out.
#include <boost/test/unit_test.hpp>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

#include "hydraulics/network.h"
#include "hydraulics/water.h"
#include "places.h"

namespace {

using namespace teetally::hydraulics;

constexpr double kEngineViscosity = 1.1e-5 * 0.3048 * 0.3048, kEngineGravity = 32.2 * 0.3048;

struct Vector {
  std::string name;
  Network network;
  std::vector<double> heads, flows;  // as the engine has them
};

void read_node(std::istream& line, double exponent, std::map<std::string, int>& index, Vector& vector) {
  std::string id;
  NetworkNode node;
  double coefficient = 0, head = 0, given = 0;
  line >> id >> node.elevation >> node.withdrawal >> coefficient >> head >> given;
  node.withdrawal /= 1000;
  index[id] = static_cast<int>(vector.network.nodes.size());
  if (coefficient > 0) {
    Outlet law;
    law.rated = coefficient / 1000;
    law.rated_at = 1;
    law.exponent = exponent;
    vector.network.outlets.push_back({index[id], law});
  }
  vector.network.nodes.push_back(node);
  vector.heads.push_back(head);
}

void read_pipe(std::istream& line, const std::map<std::string, int>& index, Vector& vector) {
  std::string from, to;
  double length = 0, inside = 0, k = 0, flow = 0;
  line >> from >> to >> length >> inside >> k >> flow;
  inside /= 1000;
  vector.network.links.push_back({index.at(from), index.at(to), length, inside, quadratic_factor(k, inside)});
  vector.flows.push_back(flow / 1000);
}

std::vector<Vector> vectors() {
  std::ifstream file(TEETALLY_SOURCE_DIR "/tests/reference/hydraulics_networks.txt");
  std::vector<Vector> all;
  std::map<std::string, int> index;
  double exponent = 0.5;
  for (std::string text; std::getline(file, text);) {
    std::istringstream line(text);
    std::string word;
    line >> word;
    if (word == "network") {
      Vector vector;
      std::string shape, kind, formula;
      double rough = 0;
      line >> vector.name >> shape >> kind >> formula >> rough >> exponent;
      vector.name += " " + shape + " " + kind;
      vector.network.law.formula = formula == "H-W" ? Formula::hazen_williams : Formula::darcy_weisbach;
      vector.network.law.c = rough;
      vector.network.law.viscosity = kEngineViscosity * kGravity / kEngineGravity;
      all.push_back(std::move(vector));
      index.clear();
    } else if (word == "source") {
      std::string id;
      double head = 0;
      line >> id >> head;
      index[id] = 0;
      all.back().network.nodes.push_back({0, 0, head});
      all.back().heads.push_back(head);
    } else if (word == "node") {
      read_node(line, exponent, index, all.back());
    } else if (word == "pipe") {
      read_pipe(line, index, all.back());
    }
  }
  return all;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(hydraulics_networks)

BOOST_AUTO_TEST_CASE(heads_and_flows_agree_with_the_engine) {
  const std::vector<Vector> all = vectors();
  BOOST_TEST(all.size() == 48u);
  double worst_head = 0, worst_loss = 0, worst_flow = 0;
  int most_iterations = 0;
  for (const Vector& vector : all) {
    const Solution solution = solve(vector.network);
    BOOST_TEST(solution.converged, vector.name);
    most_iterations = std::max(most_iterations, solution.iterations);
    double largest_flow = 0;
    for (const double flow : vector.flows) largest_flow = std::max(largest_flow, std::abs(flow));
    const double source = vector.heads.front();
    for (std::size_t i = 1; i < vector.heads.size(); ++i) {
      const double off = std::abs(solution.heads[i] - vector.heads[i]);
      worst_head = std::max(worst_head, off / vector.heads[i]);
      if (source - vector.heads[i] > 0.1) worst_loss = std::max(worst_loss, off / (source - vector.heads[i]));
    }
    for (std::size_t k = 0; k < vector.flows.size(); ++k) {
      worst_flow = std::max(worst_flow, std::abs(solution.flows[k] - vector.flows[k]) / largest_flow);
    }
  }
  BOOST_TEST_MESSAGE("worst deviations: head " << worst_head << ", loss " << worst_loss << ", flow " << worst_flow
                                               << "; most iterations " << most_iterations);
  BOOST_TEST(worst_head < 1e-3);
  BOOST_TEST(worst_loss < 1e-3);
  BOOST_TEST(worst_flow < 1e-3);
  BOOST_TEST(most_iterations < 30);
}

BOOST_AUTO_TEST_SUITE_END()
