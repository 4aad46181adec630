// Purchases that the exact search does not hold, or leaves open. Those it does not hold go to the search for large
// orders first, which is quick; what is open then goes to CBC for the time that is left, with the plan at hand. The
// better plan and the better bound are the answer.
#include <algorithm>

#include "purchase/solver.h"
#include "teetally/purchase.h"

namespace teetally {
namespace {

// Of an order of very many packs CBC has not narrowed such a gap in a minute.
constexpr double kNearEnough = 0.01;  // of the cost
constexpr double kOfTheTime = 0.5;    // at most, for the first search
constexpr std::int64_t kManyPacks = 500;

bool near_enough(const PurchaseProblem& problem, const Solved& solved) {
  const std::optional<Rank> found = solved.plan ? rank(problem, *solved.plan) : std::nullopt;
  if (!found) return false;
  const std::int64_t gap = found->cost - solved.lower_bound;
  return found->packs > kManyPacks && static_cast<double>(gap) <= kNearEnough * static_cast<double>(found->cost);
}

}  // namespace

Solved go_on_with_cbc(const PurchaseProblem& problem, const SolveWishes& wishes, const Solved& solved) {
  SolveWishes rest = wishes;
  if (solved.plan) rest.start = solved.plan;
  Solved last;
  try {
    last = solve_with_cbc(problem, rest);
  } catch (const SolverFailure&) {
    if (!solved.plan) throw;
    return solved;
  }
  last.nodes += solved.nodes;
  if (last.infeasible && solved.plan) return solved;
  if (last.infeasible || !last.plan || last.proven || last.lower_bound >= solved.lower_bound) return last;
  last.lower_bound = solved.lower_bound;
  last.rests_on = solved.rests_on;
  last.floating = solved.floating;
  last.proven = rank(problem, *last.plan)->cost == last.lower_bound;
  return last;
}

Solved solve_beyond_exact(const PurchaseProblem& problem, const SolveWishes& wishes) {
  const TimeLimit limit(Stopwatch{}, wishes.seconds, wishes.stop);
  SolveWishes first = wishes;
  first.seconds *= kOfTheTime;
  const Solved solved = solve_in_bulk(problem, first);
  if (near_enough(problem, solved) || (solved.plan && limit.over())) return solved;
  SolveWishes rest = wishes;
  rest.seconds = limit.left();
  return go_on_with_cbc(problem, rest, solved);
}

}  // namespace teetally
