#include "hydraulics/worst_path.h"

#include <algorithm>
#include <cmath>

namespace teetally::hydraulics {
namespace {

double pressure_head(const ZoneFlow& flow, int node) {
  return flow.solution.heads[node] - flow.zone.network.nodes[node].elevation;
}

// For every network node the link that brings it most water, or -1.
std::vector<int> bringing(const ZoneFlow& flow) {
  const Network& network = flow.zone.network;
  std::vector<int> link(network.nodes.size(), -1);
  for (std::size_t k = 0; k < network.links.size(); ++k) {
    const double q = flow.solution.flows[k];
    const int into = q >= 0 ? network.links[k].to : network.links[k].from;
    if (link[into] < 0 || std::abs(q) > std::abs(flow.solution.flows[link[into]])) link[into] = static_cast<int>(k);
  }
  return link;
}

struct Step {
  int node = -1;      // network node
  double length = 0;  // m of the link that leads to it
};

// From the outlet back to the head, then turned round.
std::vector<Step> steps_to(const ZoneFlow& flow, int node) {
  const Network& network = flow.zone.network;
  const std::vector<int> link = bringing(flow);
  std::vector<Step> steps;
  while (node != flow.zone.head && link[node] >= 0 && steps.size() < network.nodes.size()) {
    const NetworkLink& by = network.links[link[node]];
    steps.push_back({node, by.length});
    node = by.from == node ? by.to : by.from;
  }
  steps.push_back({node, 0});
  std::reverse(steps.begin(), steps.end());
  return steps;
}

Length length_of(double metres_long) { return {static_cast<std::int64_t>(std::llround(metres_long * 1e4))}; }

}  // namespace

int worst_outlet(const ZoneFlow& flow) {
  int worst = -1;
  for (std::size_t i = 0; i < flow.shares.size(); ++i) {
    if (worst < 0) worst = 0;
    const double part = flow.shares[i].part, least = flow.shares[worst].part;
    const bool equal = std::abs(part - least) < 1e-12;
    const int here = flow.zone.network.outlets[i].node, there = flow.zone.network.outlets[worst].node;
    if (equal ? pressure_head(flow, here) < pressure_head(flow, there) : part < least) worst = static_cast<int>(i);
  }
  return worst;
}

std::vector<PathPoint> worst_path(const Garden& garden, const ZoneFlow& flow, const Settings& settings) {
  std::vector<PathPoint> path;
  const int outlet = worst_outlet(flow);
  if (outlet < 0 || !flow.solution.converged) return path;
  std::vector<int> garden_node(flow.zone.network.nodes.size(), -1);
  for (std::size_t i = 0; i < flow.zone.node_of.size(); ++i) {
    if (flow.zone.node_of[i] >= 0) garden_node[flow.zone.node_of[i]] = static_cast<int>(i);
  }
  const int last = flow.zone.network.outlets[outlet].node;
  const Spot& spot = flow.zone.spots[outlet];
  double along = 0;
  for (const Step& step : steps_to(flow, last)) {
    along += step.length;
    const int node = garden_node[step.node];
    if (node < 0 && step.node != last) continue;  // an emitter on the way
    std::string where = node >= 0 ? garden.nodes[node].label : std::string();
    if (step.node == last && spot.run >= 0) where = garden.runs[spot.run].name;
    path.push_back({std::move(where), length_of(along), length_of(flow.zone.network.nodes[step.node].elevation),
                    pressure_head(flow, step.node) * settings.water.pa_per_m()});
  }
  return path;
}

}  // namespace teetally::hydraulics
