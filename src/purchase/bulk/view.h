#pragma once
// A PurchaseProblem under one choice of fit families, as the search for large orders sees it: amounts may be split,
// packs bought in fractions, and what stays whole is the bracket of its terms that each supplier's order falls in. All
// that is left out only makes plans dearer, so a bound found here is a bound for the problem itself.
#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "purchase/linear/model.h"
#include "purchase/plan.h"
#include "purchase/problem.h"

namespace teetally {

// A supplier unused, or used with goods in [from, to]: an order then costs at least fixed + rate * goods.
struct BulkState {
  int bracket = -1;  // -1: unused
  double from = 0, to = 0, rate = 0, fixed = 0;
};
struct BulkView {
  const PurchaseProblem* problem = nullptr;
  std::vector<int> family;
  std::vector<std::vector<int>> needs_of;      // by product: needs it may serve
  std::vector<std::vector<BulkState>> states;  // by supplier; unused first
  std::vector<int> rules;                      // cut rules that apply and are one sum
};
// nullopt when some need has no product under this family. Goods of a plan that costs at most `most_cost` only.
std::optional<BulkView> view_in_bulk(const PurchaseProblem& problem, const std::vector<int>& family,
                                     std::int64_t most_cost);

// By supplier: a bit for each state that it may be in.
using AllowedStates = std::vector<std::uint64_t>;
AllowedStates all_allowed(const BulkView& view);

// What one unit of a need, and of a rule, is worth. Any prices give a true bound; good ones a high one.
struct BulkPrices {
  std::vector<double> need, rule;  // by need; by PurchaseProblem::cut_rules
};
// No plan with these families and states costs less, in minor units. Computed in doubles and rounded down by more than
// all of its roundings together.
double bound_in_bulk(const BulkView& view, const AllowedStates& allowed, const BulkPrices& prices);
// The same with whole packs, which is higher where packs are large for the needs and suppliers' states are settled.
double whole_bound_in_bulk(const BulkView& view, const AllowedStates& allowed, const BulkPrices& prices);

// The relaxation solved: what it buys, and its prices.
struct BulkAnswer {
  std::vector<double> lots;                  // by pack
  std::vector<double> bundles;               // by bundle
  std::vector<std::vector<double>> changed;  // by bundle: each part's choices, one part after another
  std::vector<double> goods;                 // by supplier
  std::vector<std::vector<double>> in;       // by supplier and state: how much it is in it
  BulkPrices prices;
};
std::optional<BulkAnswer> relax_in_bulk(const BulkView& view, const AllowedStates& allowed);

// A plan of whole packs near the answer; nullopt when none was found. It need not keep every rule of the problem.
std::optional<Plan> whole_plan(const BulkView& view, const BulkAnswer& answer);

}  // namespace teetally
