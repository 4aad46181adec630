#include <algorithm>

#include "purchase/build_problem.h"
#include "purchase/known_plan.h"
#include "purchase/shortfall.h"
#include "purchase/solver.h"
#include "purchase/state_purchase.h"
#include "teetally/base/stopwatch.h"
#include "teetally/purchase.h"
#include "teetally/purchase/buy_with.h"

namespace teetally {
namespace {

// Finding out why nothing can be bought takes many small solves; they share this much of the time limit.
constexpr double kShareForShortfall = 0.5;
constexpr std::size_t kMostCut = 3;      // known orders whose tubing is cut anew
constexpr std::size_t kMostTrimmed = 4;  // known orders to start from

// A purchase that fails its own audit is a bug of this program, never of its input.
void must_pass_audit(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase) {
  const std::vector<std::string> wrong = audit(book, limits, purchase);
  if (!wrong.empty()) throw std::logic_error("the purchase fails its audit: " + wrong.front());
}

struct RankedPlan {
  Rank rank;
  Plan plan;
};

// Known orders that keep the rules here, best first. Whether their tubing can be cut is not known yet.
std::vector<RankedPlan> known_plans(const PurchaseProblem& problem, const Beforehand& known) {
  std::vector<RankedPlan> plans;
  for (const Purchase* purchase : known.orders) {
    std::optional<Plan> plan = plan_of(problem, *purchase);
    const std::optional<Rank> found = plan ? rank(problem, *plan) : std::nullopt;
    if (found) plans.push_back({*found, std::move(*plan)});
  }
  std::stable_sort(plans.begin(), plans.end(),
                   [](const RankedPlan& a, const RankedPlan& b) { return a.rank < b.rank; });
  return plans;
}

// In place of an engine: the plan it is given, so that solve_whole cuts that one.
Solved take_as_it_is(const PurchaseProblem& problem, const SolveWishes& wishes) {
  Solved solved;
  solved.plan = wishes.start;
  if (wishes.start) {
    const std::optional<Rank> found = rank(problem, *wishes.start);
    solved.lower_bound = found ? found->cost : 0;
    solved.proven = found.has_value();
  }
  solved.rests_on = "an order that costs as little as other answers prove to be the least";
  return solved;
}

// A known order that no order can beat, if there is one.
std::optional<Solved> known_best(const PurchaseProblem& problem, const std::vector<RankedPlan>& plans, Money at_least) {
  for (std::size_t i = 0; i < std::min(kMostCut, plans.size()); ++i) {
    if (plans[i].rank.cost > at_least.minor) return std::nullopt;
    SolveWishes wishes;
    wishes.start = plans[i].plan;
    Solved solved = solve_whole({"known", take_as_it_is}, problem, wishes);
    const std::optional<Rank> found = solved.plan ? rank(problem, *solved.plan) : std::nullopt;
    if (!found || found->cost > at_least.minor) continue;
    solved.proven = true;
    solved.ties_settled = false;
    solved.lower_bound = found->cost;
    solved.least_uncut = 0;
    return solved;
  }
  return std::nullopt;
}

void state_bought(const OfferBook& book, const BuyLimits& limits, const PurchaseProblem& problem, const Solved& solved,
                  Purchase& purchase) {
  purchase.outcome = Outcome::bought;
  state_plan(book, problem, solved, purchase);
  purchase.proof.cost = purchase.total;
  purchase.proof.proven = solved.proven;
  purchase.proof.ties_settled = solved.ties_settled;
  must_pass_audit(book, limits, purchase);
}

// Of plans that must cost less than something given, the cheapest at hand; else the cheapest of them, each trimmed;
// with none at hand, what first_plan finds.
std::optional<Plan> best_start(const PurchaseProblem& problem, const std::vector<RankedPlan>& known,
                               const std::optional<Money>& below) {
  if (below) {
    const bool any = !known.empty() && known.front().rank.cost < below->minor;
    return any ? std::optional(known.front().plan) : std::nullopt;
  }
  if (known.empty()) return first_plan(problem);
  std::vector<Plan> plans;
  if (std::optional<Plan> first = first_plan(problem)) plans.push_back(std::move(*first));
  for (std::size_t i = 0, taken = 0; i < known.size() && taken < kMostTrimmed; ++i) {
    if (i > 0 && known[i].rank == known[i - 1].rank) continue;  // the same order, most likely
    plans.push_back(known[i].plan);
    ++taken;
  }
  std::optional<RankedPlan> best;
  for (const Plan& plan : plans) {
    Plan tried = trimmed(problem, plan);
    const std::optional<Rank> found = rank(problem, tried);
    if (found && (!best || *found < best->rank)) best = {*found, std::move(tried)};
  }
  return best ? std::optional(std::move(best->plan)) : std::nullopt;
}

}  // namespace

FoundPurchase buy_with(const OfferBook& book, const BuyLimits& limits, const Beforehand& known) {
  const Stopwatch watch;
  const Engine* engine = find_engine(limits.engine);
  if (engine == nullptr) throw SolverFailure("no engine is called '" + limits.engine + "'");
  FoundPurchase found;
  Purchase& purchase = found.purchase;
  purchase.shortfalls = unserved_needs(book, limits);
  if (!purchase.shortfalls.empty()) {
    purchase.outcome = Outcome::infeasible;
    purchase.proof.rests_on = "the offers alone";
    purchase.proof.seconds = watch.seconds();
    return found;
  }
  const PurchaseProblem problem = build_problem(book, limits);
  const std::vector<RankedPlan> plans = known_plans(problem, known);
  std::optional<Solved> solved = known_best(problem, plans, known.at_least);
  found.searched = !solved;
  if (!solved) {
    SolveWishes wishes{limits.seconds, best_start(problem, plans, known.below), limits.stop};
    if (known.below) wishes.below = known.below->minor;
    wishes.start_is_near = wishes.below || !plans.empty();
    solved = solve_whole(*engine, problem, wishes);
  }
  purchase.proof.rests_on = solved->rests_on;
  purchase.proof.floating = solved->floating;
  purchase.proof.nodes = solved->nodes;
  purchase.proof.lower_bound = Money{solved->lower_bound};
  found.least_uncut = std::max(known.at_least, Money{solved->least_uncut});
  if (solved->plan) {
    state_bought(book, limits, problem, *solved, purchase);
  } else if (solved->infeasible) {
    purchase.outcome = Outcome::infeasible;
    if (known.name_shortfalls) {
      purchase.shortfalls = {smallest_shortfall(book, limits, *engine, limits.seconds * kShareForShortfall)};
    }
  }
  purchase.proof.seconds = watch.seconds();
  return found;
}

Purchase buy(const OfferBook& book, const BuyLimits& limits) { return buy_with(book, limits, {}).purchase; }

}  // namespace teetally
