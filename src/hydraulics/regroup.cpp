#include "hydraulics/regroup.h"

#include <algorithm>

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

}  // namespace teetally::hydraulics
