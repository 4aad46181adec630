#include "purchase/exact/largest.h"

namespace teetally {

std::int64_t smallest_order(const ExactModel& model, std::size_t supplier, int state) {
  const SupplierState& of = model.suppliers[supplier][state];
  if (!of.used || of.from == 0) return 0;
  return cost_of_order(model.problem->suppliers[supplier], of.from).value_or(0);
}

std::vector<Bound::Split> parts_by_largest(const ExactModel& model, const SearchNode& node, std::int64_t most_cost) {
  std::vector<Bound::Split> parts;
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    const std::size_t variable = model.columns.size() + s;
    const std::vector<int>& states = node.domains[variable];
    std::size_t at = states.size();
    while (at > 0 && smallest_order(model, s, states[at - 1]) > most_cost / 2) --at;
    if (at > 0 && at < states.size()) parts.push_back({static_cast<int>(variable), at, false, 0});
  }
  if (parts.size() < 2) parts.clear();
  return parts;
}

}  // namespace teetally
