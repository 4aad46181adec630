#include "hydraulics/regroup.h"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace teetally::hydraulics {
namespace {

std::vector<std::int64_t> rated_flows(const Garden& garden) {
  std::vector<std::int64_t> rated(garden.elements.size(), 0);
  for (const Run& run : garden.runs) {
    if (run.emitters && run.element >= 0) rated[run.element] += run.emitters->rated.nl_per_h / 1000 * run.emitter_count;
  }
  for (const Device& device : garden.devices) {
    if (device.outlet && device.element >= 0)
      rated[device.element] += device.outlet->rated.nl_per_h / 1000 * device.count;
  }
  return rated;
}

// The legs of a run's header one after another from its fed end; empty when they branch or there are fewer than two.
std::vector<int> header_chain(const Garden& garden, int run) {
  std::vector<int> chain;
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    if (garden.legs[leg].run != run || garden.legs[leg].role != LegRole::header) continue;
    if (!chain.empty() && garden.legs[chain.back()].to != garden.legs[leg].from) return {};
    chain.push_back(static_cast<int>(leg));
  }
  return chain.size() < 2 ? std::vector<int>{} : chain;
}

int leg_into(const Garden& garden, int node) {
  for (std::size_t leg = 0; leg < garden.legs.size(); ++leg) {
    if (garden.legs[leg].to == node) return static_cast<int>(leg);
  }
  return -1;
}

}  // namespace

std::vector<std::vector<int>> balanced_groups(const Garden& garden, int zone, int parts) {
  const std::vector<std::int64_t> rated = rated_flows(garden);
  std::vector<int> members;
  for (std::size_t element = 0; element < garden.elements.size(); ++element) {
    if (garden.elements[element].zone == zone && rated[element] > 0) members.push_back(static_cast<int>(element));
  }
  std::stable_sort(members.begin(), members.end(), [&](int a, int b) { return rated[a] > rated[b]; });
  std::vector<std::vector<int>> groups(std::min(members.size(), static_cast<std::size_t>(parts)));
  std::vector<std::int64_t> sums(groups.size(), 0);
  for (const int member : members) {
    const auto least = std::min_element(sums.begin(), sums.end());
    *least += rated[member];
    groups[static_cast<std::size_t>(least - sums.begin())].push_back(member);
  }
  for (std::vector<int>& group : groups) std::sort(group.begin(), group.end());
  return groups;
}

bool feed_header_from_middle(Garden& garden, int run) {
  const std::vector<int> chain = header_chain(garden, run);
  if (chain.empty()) return false;
  const int feeding = leg_into(garden, garden.legs[chain.front()].from);
  if (feeding < 0) return false;
  Length whole;
  for (const int leg : chain) whole += garden.legs[leg].length;
  // The node after `turned` legs is the one nearest the middle.
  std::size_t turned = 0;
  Length along, best_along;
  for (std::size_t i = 0; i + 1 < chain.size(); ++i) {
    along += garden.legs[chain[i]].length;
    const auto off = [&](Length at) { return std::abs(2 * at.tenths_mm - whole.tenths_mm); };
    if (turned == 0 || off(along) < off(best_along)) turned = i + 1, best_along = along;
  }
  garden.legs[feeding].to = garden.legs[chain[turned - 1]].to;
  garden.legs[feeding].length += best_along;
  for (std::size_t i = 0; i < turned; ++i) std::swap(garden.legs[chain[i]].from, garden.legs[chain[i]].to);
  return true;
}

void halve_row(Garden& garden, int run) {
  const std::size_t legs = garden.legs.size();
  Run other = garden.runs[run];
  other.emitter_count = garden.runs[run].emitter_count / 2;
  if (other.emitter_count == 0) return;
  garden.runs[run].emitter_count -= other.emitter_count;
  garden.runs.push_back(other);
  int from = -1;
  for (std::size_t i = 0; i < legs; ++i) {
    if (garden.legs[i].run != run) continue;
    Leg half = garden.legs[i];
    half.length.tenths_mm /= 2;
    garden.legs[i].length = garden.legs[i].length - half.length;
    if (from >= 0) half.from = from;
    garden.nodes.push_back(garden.nodes[half.to]);
    half.to = from = static_cast<int>(garden.nodes.size()) - 1;
    half.run = static_cast<int>(garden.runs.size()) - 1;
    garden.legs.push_back(half);
    garden.system_of_leg.resize(garden.legs.size(), garden.system_of_leg.empty() ? 0 : garden.system_of_leg[0]);
  }
}

}  // namespace teetally::hydraulics
