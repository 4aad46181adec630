#pragma once
// The seam between the purchase and whatever finds the cheapest plan: an engine takes a PurchaseProblem and
// answers a plan with a lower bound. Engines are values in a table; adding one changes nothing else. An engine's
// plan is only believed after rank() accepts it, and its bound is only as good as `rests_on` says.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "purchase/cut/cutting.h"
#include "purchase/plan.h"
#include "purchase/problem.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

struct SolveWishes {
  double seconds = 60;
  std::optional<Plan> start;  // a plan known to keep the rules
  StopFlag stop = nullptr;
  // Only plans that cost less are wanted, and any of them will do: an engine may answer "infeasible" where there is
  // none, and this as the bound.
  std::optional<std::int64_t> below{};
  bool start_is_near = false;  // to the cheapest plan, most likely: no long look for another start
};

struct Solved {
  std::optional<Plan> plan;      // keeps the rules; at least as good as `start`
  std::int64_t lower_bound = 0;  // no plan costs less
  std::int64_t least_uncut = 0;  // of solve_whole: no plan costs less that is long enough in all, cut or not
  bool proven = false;           // the plan costs the lower bound
  bool floating = false;         // the bound was reckoned in floating point
  bool infeasible = false;       // the engine says that no plan keeps the rules
  bool ties_settled = false;     // no plan of equal cost ranks better
  std::int64_t nodes = 0;
  std::string rests_on;
  std::vector<LaidCoil> coils;  // of solve_whole: the plan's tubing, cut
};

struct Engine {
  std::string name;
  Solved (*solve)(const PurchaseProblem& problem, const SolveWishes& wishes);
};
const std::vector<Engine>& engines();
// nullptr when there is none of that name.
const Engine* find_engine(const std::string& name);

// The cheapest plan whose tubing can also be cut as the needs ask (solve_whole.cpp); what everybody calls.
Solved solve_whole(const Engine& engine, const PurchaseProblem& problem, const SolveWishes& wishes);

// Mixed-integer programming by CBC on the linear model; throws SolverFailure when the library breaks.
Solved solve_with_cbc(const PurchaseProblem& problem, const SolveWishes& wishes);
// Our own search (exact/engine.cpp): its bound is computed in whole steps, so nothing rests on floating point.
// Problems outside what it handles go to CBC, and `rests_on` then says so.
Solved solve_exactly(const PurchaseProblem& problem, const SolveWishes& wishes);
// Our own search for large orders (bulk/engine.cpp): a gap that is small where needs are many packs each. It leaves out
// rules that are wishes for a bundle, so it answers no plan where one is wanted and its own has none.
Solved solve_in_bulk(const PurchaseProblem& problem, const SolveWishes& wishes);
// Goes on from what another engine left open.
Solved go_on_with_cbc(const PurchaseProblem& problem, const SolveWishes& wishes, const Solved& solved);
// Where the exact search goes with what it does not hold (beyond_exact.cpp).
Solved solve_beyond_exact(const PurchaseProblem& problem, const SolveWishes& wishes);
// Tries every count within the limits, with bounds that are plain to see; for tiny problems and for tests.
Solved solve_by_enumeration(const PurchaseProblem& problem, const SolveWishes& wishes);

// A plan that keeps the rules, found without any engine; nullopt says nothing. It is where engines start, and
// it contradicts a false "infeasible".
std::optional<Plan> first_plan(const PurchaseProblem& problem);

}  // namespace teetally
