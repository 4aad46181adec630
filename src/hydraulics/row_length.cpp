#include "hydraulics/row_length.h"

#include <algorithm>

#include "hydraulics/evenness.h"
#include "hydraulics/network.h"

namespace teetally::hydraulics {
namespace {

Network row_network(const RowKind& row, int outlets, double inlet_head, const Settings& settings) {
  Network network;
  network.law = settings.law;
  network.nodes.push_back({0, 0, inlet_head});
  for (int i = 1; i <= outlets; ++i) {
    network.nodes.push_back({row.climb * row.spacing * i, 0, std::nullopt});
    network.links.push_back({i - 1, i, row.spacing, row.inside, 0});
    network.outlets.push_back({i, row.law});
  }
  return network;
}

}  // namespace

bool row_is_even(const RowKind& row, int outlets, double inlet_head, const Settings& settings) {
  const Solution solution = solve(row_network(row, outlets, inlet_head, settings));
  std::vector<Share> shares;
  for (const double flow : solution.outlet_flows) shares.push_back({flow / row.law.rated, 1});
  return solution.converged && even_enough(evenness_of(shares), row.law.compensating, settings.most_variation);
}

// A longer row takes more water and lies farther out, so its least outlet falls with every one added: halving works.
int most_outlets(const RowKind& row, double inlet_head, const Settings& settings) {
  if (row.law.rated <= 0 || row.spacing <= 0 || inlet_head <= 0) return 0;
  int passes = 0, fails = 1;
  while (fails <= kMostOutletsOfARow && row_is_even(row, fails, inlet_head, settings)) {
    passes = fails;
    fails *= 2;
  }
  fails = std::min(fails, kMostOutletsOfARow + 1);
  while (fails - passes > 1) {
    const int middle = (passes + fails) / 2;
    (row_is_even(row, middle, inlet_head, settings) ? passes : fails) = middle;
  }
  return passes;
}

}  // namespace teetally::hydraulics
