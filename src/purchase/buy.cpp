#include "purchase/build_problem.h"
#include "purchase/shortfall.h"
#include "purchase/solver.h"
#include "purchase/state_purchase.h"
#include "teetally/base/stopwatch.h"
#include "teetally/purchase.h"

namespace teetally {
namespace {

// Finding out why nothing can be bought takes many small solves; they share this much of the time limit.
constexpr double kShareForShortfall = 0.5;

// A purchase that fails its own audit is a bug of this program, never of its input.
void must_pass_audit(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase) {
  const std::vector<std::string> wrong = audit(book, limits, purchase);
  if (!wrong.empty()) throw std::logic_error("the purchase fails its audit: " + wrong.front());
}

}  // namespace

Purchase buy(const OfferBook& book, const BuyLimits& limits) {
  const Stopwatch watch;
  const Engine* engine = find_engine(limits.engine);
  if (engine == nullptr) throw SolverFailure("no engine is called '" + limits.engine + "'");
  Purchase purchase;
  purchase.shortfalls = unserved_needs(book, limits);
  if (!purchase.shortfalls.empty()) {
    purchase.outcome = Outcome::infeasible;
    purchase.proof.rests_on = "the offers alone";
    purchase.proof.seconds = watch.seconds();
    return purchase;
  }
  const PurchaseProblem problem = build_problem(book, limits);
  SolveWishes wishes;
  wishes.start = first_plan(problem);
  wishes.seconds = limits.seconds;
  const Solved solved = solve_whole(*engine, problem, wishes);
  purchase.proof.rests_on = solved.rests_on;
  purchase.proof.nodes = solved.nodes;
  purchase.proof.lower_bound = Money{solved.lower_bound};
  if (solved.plan) {
    purchase.outcome = Outcome::bought;
    state_plan(book, problem, solved, purchase);
    purchase.proof.cost = purchase.total;
    purchase.proof.proven = solved.proven;
    purchase.proof.ties_settled = solved.ties_settled;
    must_pass_audit(book, limits, purchase);
  } else if (solved.infeasible) {
    purchase.outcome = Outcome::infeasible;
    purchase.shortfalls = {smallest_shortfall(book, limits, *engine, limits.seconds * kShareForShortfall)};
  }
  purchase.proof.seconds = watch.seconds();
  return purchase;
}

}  // namespace teetally
