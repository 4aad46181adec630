#include "purchase/exact/rough.h"

#include <algorithm>

#include "purchase/exact/lines.h"
#include "purchase/exact/wide.h"

namespace teetally {
namespace {

constexpr double kMuchWork = 1e7;     // of a sweep: a hundredth of a second
constexpr double kOfTheTime = 0.25;   // at most
constexpr double kNearEnough = 2e-4;  // of the cost

}  // namespace

bool is_much_work(const ExactModel& model, const std::vector<std::int64_t>& most) {
  return !is_line_list(model) && work_of_sweep(model, most) > kMuchWork;
}

bool is_much_work(const std::vector<CaseModel>& models, const BestSoFar& best) {
  return std::any_of(models.begin(), models.end(),
                     [&](const CaseModel& of) { return is_much_work(of.model, most_affordable(of.model, best)); });
}

Solved rough_look(const PurchaseProblem& problem, SolveWishes wishes, BestSoFar& best) {
  wishes.seconds *= kOfTheTime;
  Solved solved = solve_in_bulk(problem, wishes);
  if (solved.plan) best.take(*solved.plan, best.measure.worth(*rank(problem, *solved.plan)));
  return solved;
}

bool is_near_enough(const PurchaseProblem& problem, const Solved& rough) {
  if (!rough.plan) return false;
  const std::int64_t cost = rank(problem, *rough.plan)->cost;
  return static_cast<double>(cost - rough.lower_bound) <= kNearEnough * static_cast<double>(cost);
}

Solved with_better_bound(const PurchaseProblem& problem, Solved solved, const Solved& rough) {
  if (!solved.plan || rough.lower_bound <= solved.lower_bound) return solved;
  const std::int64_t cost = rank(problem, *solved.plan)->cost;
  solved.lower_bound = std::min(cost, rough.lower_bound);
  solved.proven = solved.lower_bound == cost;
  solved.rests_on = rough.rests_on;
  return solved;
}

}  // namespace teetally
