#include <algorithm>
#include <cmath>

#include "hydraulics/network.h"
#include "hydraulics/sparse_solver.h"

namespace teetally::hydraulics {
namespace {

constexpr int kMostIterations = 200;
constexpr double kEnergyTolerance = 1e-9;    // m
constexpr double kBalanceTolerance = 1e-10;  // of the largest flow
constexpr double kLeastSlope = 1e-3;         // m per m3/s; steers the search only, the loss itself is exact

struct State {
  std::vector<double> heads, flows;
};

// What is wrong with a state, and the slopes there.
struct Errors {
  std::vector<double> energy;        // by link: head difference less loss
  std::vector<double> slope;         // by link
  std::vector<double> balance;       // by node: inflow less outflow, zero at held nodes
  std::vector<double> outlet_slope;  // by node
  double worst_energy = 0, worst_balance = 0, largest_flow = 0;
};

Errors errors_at(const Network& network, const State& state) {
  Errors errors;
  errors.balance.assign(network.nodes.size(), 0.0);
  errors.outlet_slope.assign(network.nodes.size(), 0.0);
  for (std::size_t i = 0; i < network.nodes.size(); ++i) errors.balance[i] = -network.nodes[i].withdrawal;
  for (const NetworkOutlet& outlet : network.outlets) {
    const OutletFlow out = outlet_flow(outlet.law, state.heads[outlet.node] - network.nodes[outlet.node].elevation);
    errors.balance[outlet.node] -= out.flow;
    errors.outlet_slope[outlet.node] += out.slope;
  }
  for (std::size_t k = 0; k < network.links.size(); ++k) {
    const NetworkLink& link = network.links[k];
    const double flow = state.flows[k];
    const Loss loss = link_loss(network.law, link, flow);
    errors.energy.push_back(state.heads[link.from] - state.heads[link.to] - loss.head);
    errors.slope.push_back(std::max(loss.slope, kLeastSlope));
    errors.balance[link.from] -= flow;
    errors.balance[link.to] += flow;
    errors.worst_energy = std::max(errors.worst_energy, std::abs(errors.energy.back()));
    errors.largest_flow = std::max(errors.largest_flow, std::abs(flow));
  }
  for (std::size_t i = 0; i < network.nodes.size(); ++i) {
    if (network.nodes[i].held_head) errors.balance[i] = 0;
    errors.worst_balance = std::max(errors.worst_balance, std::abs(errors.balance[i]));
  }
  return errors;
}

bool good_enough(const Errors& errors) {
  return errors.worst_energy <= kEnergyTolerance &&
         errors.worst_balance <= std::max(kBalanceTolerance * errors.largest_flow, 1e-18);
}

// The squared length of the error, heads in metres and flows against `flow_unit`.
double merit(const Errors& errors, double flow_unit) {
  double sum = 0;
  for (const double e : errors.energy) sum += e * e;
  for (const double r : errors.balance) sum += (r / flow_unit) * (r / flow_unit);
  return sum;
}

class Search {
 public:
  explicit Search(const Network& network)
      : network_(network), row_of_(numbered(network)), solver_(rows_, pairs_between(network, row_of_)) {}

  // One Newton direction: changes of heads and flows; false when the system is singular.
  bool direction(const Errors& errors, State& change) {
    diagonal_.assign(static_cast<std::size_t>(rows_), 0.0);
    right_.assign(static_cast<std::size_t>(rows_), 0.0);
    conductance_.clear();
    for (std::size_t i = 0; i < network_.nodes.size(); ++i) {
      if (row_of_[i] < 0) continue;
      diagonal_[row_of_[i]] += errors.outlet_slope[i];
      right_[row_of_[i]] += errors.balance[i];
    }
    for (std::size_t k = 0; k < network_.links.size(); ++k)
      add_link(network_.links[k], 1 / errors.slope[k], errors.energy[k]);
    if (!solver_.solve(diagonal_, conductance_, right_, unknown_)) return false;
    change.heads.assign(network_.nodes.size(), 0.0);
    for (std::size_t i = 0; i < network_.nodes.size(); ++i) {
      if (row_of_[i] >= 0) change.heads[i] = unknown_[row_of_[i]];
    }
    change.flows.resize(network_.links.size());
    for (std::size_t k = 0; k < network_.links.size(); ++k) {
      const NetworkLink& link = network_.links[k];
      change.flows[k] = (change.heads[link.from] - change.heads[link.to] + errors.energy[k]) / errors.slope[k];
    }
    return true;
  }

 private:
  std::vector<int> numbered(const Network& network) {
    std::vector<int> rows;
    for (const NetworkNode& node : network.nodes) rows.push_back(node.held_head ? -1 : rows_++);
    return rows;
  }

  static std::vector<std::pair<int, int>> pairs_between(const Network& network, const std::vector<int>& row_of) {
    std::vector<std::pair<int, int>> pairs;
    for (const NetworkLink& link : network.links) {
      const int i = row_of[link.from], j = row_of[link.to];
      if (i >= 0 && j >= 0 && i != j) pairs.emplace_back(i, j);
    }
    return pairs;
  }

  void add_link(const NetworkLink& link, double conductance, double energy) {
    const int i = row_of_[link.from], j = row_of_[link.to];
    if (i == j && i >= 0) return;
    if (i >= 0) diagonal_[i] += conductance, right_[i] -= conductance * energy;
    if (j >= 0) diagonal_[j] += conductance, right_[j] += conductance * energy;
    if (i >= 0 && j >= 0) conductance_.push_back(conductance);
  }

  const Network& network_;
  int rows_ = 0;
  std::vector<int> row_of_;  // by node; -1 when held
  SparseSolver solver_;
  std::vector<double> diagonal_, right_, conductance_, unknown_;
};

State first_state(const Network& network, const Start& start) {
  State state{start.heads, start.flows};
  double highest = 0;
  bool any = false;
  for (const NetworkNode& node : network.nodes) {
    if (node.held_head) highest = any ? std::max(highest, *node.held_head) : *node.held_head, any = true;
  }
  if (state.heads.empty()) state.heads.assign(network.nodes.size(), highest);
  if (state.flows.empty()) {
    for (const NetworkLink& link : network.links)
      state.flows.push_back(link.length > 0 ? 0.3048 * area(link.inside) : 1e-4);
  }
  for (std::size_t i = 0; i < network.nodes.size(); ++i) {
    if (network.nodes[i].held_head) state.heads[i] = *network.nodes[i].held_head;
  }
  return state;
}

State moved(const State& from, const State& change, double part) {
  State to = from;
  for (std::size_t i = 0; i < to.heads.size(); ++i) to.heads[i] += part * change.heads[i];
  for (std::size_t k = 0; k < to.flows.size(); ++k) to.flows[k] += part * change.flows[k];
  return to;
}

double flow_unit_of(const Network& network) {
  double sum = 1e-9;
  for (const NetworkNode& node : network.nodes) sum += std::abs(node.withdrawal);
  for (const NetworkOutlet& outlet : network.outlets) sum += outlet.law.rated;
  return sum;
}

Solution solution_of(const Network& network, State state, const Errors& errors, int iterations) {
  Solution solution;
  solution.converged = good_enough(errors);
  solution.iterations = iterations;
  solution.worst_energy = errors.worst_energy;
  solution.worst_balance = errors.worst_balance;
  for (const NetworkOutlet& outlet : network.outlets) {
    const double head = state.heads[outlet.node] - network.nodes[outlet.node].elevation;
    solution.outlet_flows.push_back(outlet_flow(outlet.law, head).flow);
  }
  solution.heads = std::move(state.heads);
  solution.flows = std::move(state.flows);
  return solution;
}

}  // namespace

Loss link_loss(const FrictionLaw& law, const NetworkLink& link, double flow) {
  Loss loss;
  if (link.length > 0) loss = friction_loss(law, link.length, link.inside, flow);
  loss.head += link.quadratic * flow * std::abs(flow);
  loss.slope += 2 * link.quadratic * std::abs(flow);
  return loss;
}

Solution solve(const Network& network, const Start& start) {
  Search search(network);
  State state = first_state(network, start), change;
  Errors errors = errors_at(network, state);
  const double unit = flow_unit_of(network);
  int iterations = 0;
  while (!good_enough(errors) && iterations < kMostIterations && search.direction(errors, change)) {
    ++iterations;
    // The full step unless it makes things worse; the error's length falls along a Newton direction, so some part of
    // the step is always an improvement.
    const double before = merit(errors, unit);
    double part = 1;
    State next = moved(state, change, part);
    Errors after = errors_at(network, next);
    while (!(merit(after, unit) < before) && part > 1e-3) {
      part /= 2;
      next = moved(state, change, part);
      after = errors_at(network, next);
    }
    state = std::move(next);
    errors = std::move(after);
  }
  return solution_of(network, std::move(state), errors, iterations);
}

}  // namespace teetally::hydraulics
