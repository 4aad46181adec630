#pragma once
// A pipe network as numbers alone: nodes with elevations, outlets and fixed withdrawals; links with friction and
// losses that go with the square of the flow; some nodes held at a head. Trees and loops alike. SI throughout:
// metres, m3/s. Heads include elevation.
#include <optional>
#include <vector>

#include "hydraulics/friction.h"
#include "hydraulics/outlet.h"

namespace teetally::hydraulics {

struct NetworkNode {
  double elevation = 0;
  double withdrawal = 0;            // m3/s, whatever the pressure
  std::optional<double> held_head;  // a source
};

struct NetworkLink {
  int from = -1, to = -1;
  double length = 0;  // no friction when zero
  double inside = 1;
  double quadratic = 0;  // m per (m3/s)^2: fittings, the droop of the supply
};

struct NetworkOutlet {
  int node = -1;
  Outlet law;
};

struct Network {
  FrictionLaw law;
  std::vector<NetworkNode> nodes;
  std::vector<NetworkLink> links;
  std::vector<NetworkOutlet> outlets;  // any number at a node
};

// Where the search starts; empty vectors mean: every head at the highest source, one foot per second in every link.
struct Start {
  std::vector<double> heads, flows;
};

struct Solution {
  bool converged = false;
  int iterations = 0;
  std::vector<double> heads;         // by node, m
  std::vector<double> flows;         // by link, m3/s, positive from `from` to `to`
  std::vector<double> outlet_flows;  // by outlet, m3/s
  double worst_energy = 0;           // m, largest |head difference - loss| over links
  double worst_balance = 0;          // m3/s, largest |inflow - outflow| over nodes
};

// Link loss at a flow, and its slope.
Loss link_loss(const FrictionLaw& law, const NetworkLink& link, double flow);

// Newton's method on heads and flows together (the global gradient method, Todini and Pilati 1988): each step solves
// one sparse symmetric positive definite system in the heads. Every node must be joined to a held head.
Solution solve(const Network& network, const Start& start = {});

}  // namespace teetally::hydraulics
