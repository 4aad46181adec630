#include "purchase/bulk/view.h"

#include <algorithm>

namespace teetally {
namespace {

bool allowed(const ServingOption& serving, const std::vector<int>& family) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(),
                     [&](const FamilyCondition& c) { return c.allowed[family[c.system]]; });
}

bool applies(const CutRule& rule, const std::vector<int>& family) {
  return rule.any_of.size() == 1 && std::all_of(rule.when.begin(), rule.when.end(),
                                                [&](const auto& when) { return family[when.first] == when.second; });
}

// Discount and tax are each rounded to the nearest minor unit, half up: together they take at most `rounding` away.
BulkState state_of(const SupplierTerms& terms, int bracket, std::int64_t most_cost) {
  const OrderBracket& terms_there = terms.brackets[bracket];
  const double tax = static_cast<double>(terms.tax_ppm) / 1e6;
  const double off = static_cast<double>(terms_there.discount_ppm) / 1e6;
  const double rounding = (off > 0 ? 0.5 * (1 + tax) : 0) + (tax > 0 ? 0.5 : 0);
  BulkState state;
  state.bracket = bracket;
  state.from = static_cast<double>(terms_there.from);
  state.rate = (1 - off) * (1 + tax) * (1 - 1e-15);
  state.fixed =
      static_cast<double>(terms_there.charge) * (1 + (terms.tax_on_charge ? tax : 0)) * (1 - 1e-15) - rounding;
  state.to = static_cast<double>(terms_there.to);
  if (state.rate > 0) state.to = std::min(state.to, (static_cast<double>(most_cost) - state.fixed) / state.rate + 1);
  return state;
}

}  // namespace

std::optional<BulkView> view_in_bulk(const PurchaseProblem& problem, const std::vector<int>& family,
                                     std::int64_t most_cost) {
  BulkView view{&problem, family, {}, {}, {}};
  view.needs_of.resize(problem.products.size());
  std::vector<bool> served(problem.needs.size(), false);
  for (const ServingOption& serving : problem.servings) {
    if (!allowed(serving, family)) continue;
    view.needs_of[serving.product].push_back(serving.need);
    served[serving.need] = true;
  }
  for (std::size_t n = 0; n < served.size(); ++n) {
    if (!served[n] && problem.needs[n] > 0) return std::nullopt;
  }
  for (const SupplierTerms& terms : problem.suppliers) {
    std::vector<BulkState>& states = view.states.emplace_back(1);
    for (std::size_t b = 0; b < terms.brackets.size(); ++b) {
      const BulkState state = state_of(terms, static_cast<int>(b), most_cost);
      if (state.from <= state.to) states.push_back(state);
    }
  }
  for (std::size_t r = 0; r < problem.cut_rules.size(); ++r) {
    if (applies(problem.cut_rules[r], family)) view.rules.push_back(static_cast<int>(r));
  }
  return view;
}

AllowedStates all_allowed(const BulkView& view) {
  AllowedStates states;
  for (const auto& of : view.states) states.push_back((std::uint64_t{1} << of.size()) - 1);
  return states;
}

}  // namespace teetally
