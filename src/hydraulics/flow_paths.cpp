#include "hydraulics/flow_paths.h"

#include <algorithm>

namespace teetally::hydraulics {
namespace {

// Kahn's order over legs; legs on a ring that cannot be ordered come last, as listed.
std::vector<int> legs_in_order(const Garden& garden) {
  std::vector<int> waiting(garden.nodes.size(), 0);
  std::vector<std::vector<int>> leaving(garden.nodes.size());
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    ++waiting[garden.legs[leg].to];
    leaving[garden.legs[leg].from].push_back(static_cast<int>(leg));
  }
  std::vector<int> ready, order;
  for (std::size_t node = 0; node < garden.nodes.size(); ++node) {
    if (waiting[node] == 0) ready.push_back(static_cast<int>(node));
  }
  std::vector<bool> listed(garden.legs.size(), false);
  for (std::size_t i = 0; i < ready.size(); ++i) {
    for (const int leg : leaving[ready[i]]) {
      order.push_back(leg);
      listed[leg] = true;
      if (--waiting[garden.legs[leg].to] == 0) ready.push_back(garden.legs[leg].to);
    }
  }
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    if (!listed[leg]) order.push_back(static_cast<int>(leg));
  }
  return order;
}

std::vector<int> feeders(const Garden& garden, const FlowPaths& paths) {
  std::vector<int> arriving(garden.nodes.size(), -1);  // a run that brings water to the node
  for (const Leg& leg : garden.legs) {
    if (leg.run >= 0 && arriving[leg.to] < 0) arriving[leg.to] = leg.run;
  }
  std::vector<int> feeder(garden.runs.size(), -1);
  for (std::size_t run = 0; run < garden.runs.size(); ++run) {
    if (paths.legs_of_run[run].empty()) continue;
    const int by = arriving[garden.legs[paths.legs_of_run[run].front()].from];
    if (by != static_cast<int>(run)) feeder[run] = by;
  }
  return feeder;
}

}  // namespace

FlowPaths flow_paths(const Garden& garden) {
  FlowPaths paths;
  paths.legs_downstream = legs_in_order(garden);
  paths.legs_of_run.resize(garden.runs.size());
  std::vector<bool> listed(garden.runs.size(), false);
  for (const int leg : paths.legs_downstream) {
    const int run = garden.legs[leg].run;
    if (run < 0) continue;
    paths.legs_of_run[run].push_back(leg);
    if (!listed[run]) paths.runs_upstream.push_back(run);
    listed[run] = true;
  }
  // A run starts before the runs it feeds, so the order of first legs backwards is upstream.
  std::reverse(paths.runs_upstream.begin(), paths.runs_upstream.end());
  paths.feeder_of_run = feeders(garden, paths);
  return paths;
}

Length farthest(const Garden& garden, const FlowPaths& paths, int run) {
  if (paths.legs_of_run[run].empty()) return {};
  const std::string& size = garden.runs[run].size;
  std::vector<Length> distance(garden.nodes.size(), Length{-1});
  const int start = garden.legs[paths.legs_of_run[run].front()].from;
  distance[start] = Length{0};
  Length most{0};
  for (const int index : paths.legs_downstream) {
    const Leg& leg = garden.legs[index];
    if (distance[leg.from] < Length{0} || leg.size != size) continue;
    if (leg.from == start && leg.run != run) continue;  // another run that starts at the same place
    distance[leg.to] = std::max(distance[leg.to], distance[leg.from] + leg.length);
    most = std::max(most, distance[leg.to]);
  }
  return most;
}

}  // namespace teetally::hydraulics
