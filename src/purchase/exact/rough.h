#pragma once
// Purchases between those of a household and the largest (the order of a hundred plots, say), of which one sweep of the
// exact search takes long: the search for large orders is quick there, and comes first.
#include <cstdint>
#include <vector>

#include "purchase/exact/choices.h"
#include "purchase/solver.h"

namespace teetally {

// Whether one sweep over these counts of bundles takes long.
bool is_much_work(const ExactModel& model, const std::vector<std::int64_t>& most);
bool is_much_work(const std::vector<CaseModel>& models, const BestSoFar& best);

// A plan for the exact search to begin with, and a bound.
Solved rough_look(const PurchaseProblem& problem, SolveWishes wishes, BestSoFar& best);
// Whether the two are so near each other that the exact search would hardly narrow the gap.
bool is_near_enough(const PurchaseProblem& problem, const Solved& rough);
// What the exact search came to, with the rough bound where that is higher.
Solved with_better_bound(const PurchaseProblem& problem, Solved solved, const Solved& rough);

}  // namespace teetally
