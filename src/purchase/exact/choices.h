#pragma once
// The choices of fit families and the cases of cut rules, one model each, before any of them is searched: a plan from
// each, and a look at which of them may hold a better one.
#include <optional>
#include <utility>
#include <vector>

#include "purchase/exact/bound.h"
#include "purchase/exact/filler.h"
#include "purchase/exact/rules.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

// The best plan so far; all choices share it.
struct BestSoFar {
  Measure measure;
  std::optional<Plan> plan;
  Worth worth;
  bool any_will_do = false;  // that is better: it need not be the best, where showing that takes much longer
  void take(Plan found, const Worth& found_worth) {
    if (found_worth >= worth) return;
    plan = std::move(found);
    worth = found_worth;
  }
  // Scaled: what a better plan may come to at most, and a cheaper one.
  double reach() const { return measure.reach(worth); }
  double cheaper() const { return measure.cheaper(worth); }
};

// All choices of one family per system; empty when there are too many.
std::vector<std::vector<int>> family_choices(const PurchaseProblem& problem);

// Whether one sweep over every count of every bundle would take too long.
bool is_wide(const ExactModel& model, const std::vector<std::int64_t>& most);

// The most of each column that does not cost more than the best plan by itself.
std::vector<std::int64_t> most_affordable(const ExactModel& model, const BestSoFar& best);

// Whether another search begins with it, in its own way: for long lists of single lines, and very large orders.
bool begins_otherwise(const ExactModel& model, const BestSoFar& best);

// Where the search of a model starts: one node, or where one of some bundles is wanted one for each column that may be
// it, in which it is taken and those before it are not. `most`: of each column.
std::vector<SearchNode> roots_of(const ExactModel& model, const Bound& bound, const std::vector<std::int64_t>& most);

// A model with its roots, their bounds raised a little; no roots where the search begins otherwise.
struct SurveyedCase {
  const CaseModel* of = nullptr;
  std::vector<SearchNode> roots;
};
// Looks for plans, unless the best is near already, and leaves out the models that hold nothing better than it; those
// with the least bound come first.
std::vector<SurveyedCase> survey(const std::vector<CaseModel>& models, Filler& filler, BestSoFar& best, TimeLimit limit,
                                 bool best_is_near);

}  // namespace teetally
