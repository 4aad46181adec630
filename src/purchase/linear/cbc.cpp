// CBC through its C++ classes. Its presolve and its probing cuts stay off: with them it has answered wrong
// optima on purchases like ours. Gaps are zero, nothing is printed, and what it answers is re-priced in whole
// minor units before anybody sees it.
#include <CbcEventHandler.hpp>
#include <CbcHeuristic.hpp>
#include <CbcHeuristicDiveCoefficient.hpp>
#include <CbcModel.hpp>
#include <CglFlowCover.hpp>
#include <CglGomory.hpp>
#include <CglKnapsackCover.hpp>
#include <CglMixedIntegerRounding2.hpp>
#include <OsiClpSolverInterface.hpp>
#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

#include "purchase/linear/model.h"
#include "purchase/solver.h"
#include "teetally/base/stopwatch.h"
#include "teetally/purchase.h"

namespace teetally {
namespace {

constexpr int kMostNodesForTies = 400;
const char* const kRestsOn = "CBC " CBC_VERSION " alone; order re-priced and re-checked in whole minor units";

double bound_of(double bound) {
  const double most = OsiClpInfinity;
  return std::clamp(bound, -most, most);
}

// Adds up the terms of each column.
CoinPackedVector merged(Terms terms) {
  std::sort(terms.begin(), terms.end());
  CoinPackedVector sum;
  for (std::size_t i = 0; i < terms.size();) {
    const int column = terms[i].first;
    double each = 0;
    for (; i < terms.size() && terms[i].first == column; ++i) each += terms[i].second;
    if (each != 0) sum.insert(column, each);
  }
  return sum;
}

// The model as a matrix, with the goal as objective.
std::unique_ptr<OsiClpSolverInterface> loaded(const LinearModel& model, const Terms& goal) {
  CoinPackedMatrix matrix(false, 0, 0);
  const int columns = static_cast<int>(model.columns.size());
  std::vector<double> low, high, cost(columns, 0.0), row_low, row_high;
  for (const ModelColumn& column : model.columns) {
    low.push_back(column.low);
    high.push_back(column.high);
  }
  for (const auto& [column, each] : goal) cost[column] += each;
  matrix.setDimensions(0, columns);
  for (const ModelRow& row : model.rows) {
    matrix.appendRow(merged(row.terms));
    row_low.push_back(bound_of(row.low));
    row_high.push_back(bound_of(row.high));
  }
  auto solver = std::make_unique<OsiClpSolverInterface>();
  solver->messageHandler()->setLogLevel(0);
  solver->getModelPtr()->setLogLevel(0);
  ClpSolve how;
  how.setSpecialOption(2, 1);  // Clp would take Ctrl-C for itself, in every thread at once, and forget whose it was
  solver->setSolveOptions(how);
  solver->loadProblem(matrix, low.data(), high.data(), cost.data(), row_low.data(), row_high.data());
  for (int c = 0; c < columns; ++c) {
    if (model.columns[c].integer) solver->setInteger(c);
  }
  return solver;
}

struct Effort {
  double seconds = 0;
  StopFlag stop = nullptr;
  int nodes = std::numeric_limits<int>::max();
};

double value_of(const Terms& terms, const std::vector<double>& values) {
  double sum = 0;
  for (const auto& [column, each] : terms) sum += each * values[column];
  return sum;
}

struct Answer {
  std::vector<double> values;  // empty: none found
  double bound = -OsiClpInfinity;
  bool optimal = false, infeasible = false;
  std::int64_t nodes = 0;
};

class StopWhenAsked : public CbcEventHandler {
 public:
  explicit StopWhenAsked(StopFlag flag) : flag_(flag) {}
  CbcAction event(CbcEvent /*what*/) override { return is_set(flag_) ? CbcEventHandler::stop : noAction; }
  CbcEventHandler* clone() const override { return new StopWhenAsked(*this); }

 private:
  StopFlag flag_;
};

void set_up(CbcModel& cbc, const LinearModel& model, const Effort& effort) {
  cbc.setLogLevel(0);
  cbc.messageHandler()->setLogLevel(0);
  cbc.setAllowableGap(0);
  cbc.setAllowableFractionGap(0);
  cbc.setCutoffIncrement(0.999);  // every goal is whole
  cbc.setUseElapsedTime(true);
  cbc.setMaximumSeconds(effort.seconds);
  cbc.setMaximumNodes(effort.nodes);
  const StopWhenAsked handler(effort.stop);
  if (effort.stop != nullptr) cbc.passInEventHandler(&handler);  // it keeps a copy
  CglGomory gomory;
  CglKnapsackCover cover;
  CglMixedIntegerRounding2 rounding;
  CglFlowCover flow;
  cbc.addCutGenerator(&gomory, -98, "Gomory");
  cbc.addCutGenerator(&cover, -98, "Knapsack");
  cbc.addCutGenerator(&rounding, -98, "MIR");
  cbc.addCutGenerator(&flow, -98, "Flow");
  CbcRounding round(cbc);
  CbcHeuristicDiveCoefficient dive(cbc);
  cbc.addHeuristic(&round, "rounding");
  cbc.addHeuristic(&dive, "dive");
  std::vector<int> priorities;
  for (const ModelColumn& column : model.columns) {
    if (column.integer) priorities.push_back(column.branch_first + 1);
  }
  cbc.findIntegers(true);
  cbc.passInPriorities(priorities.data(), false);
}

Answer solve(const LinearModel& model, const Terms& goal, const std::vector<double>& start, const Effort& effort) {
  const std::unique_ptr<OsiClpSolverInterface> solver = loaded(model, goal);
  Answer answer;
  if (model.columns.empty()) return answer;
  CbcModel cbc(*solver);
  set_up(cbc, model, effort);
  cbc.initialSolve();
  if (!start.empty()) {
    cbc.setBestSolution(start.data(), static_cast<int>(start.size()), value_of(goal, start), false);
  }
  cbc.branchAndBound();
  answer.nodes = cbc.getNodeCount();
  answer.infeasible = cbc.isProvenInfeasible();
  answer.optimal = cbc.isProvenOptimal();
  // Settled at the root, CBC leaves the bound at the first relaxation; its claim is the objective.
  answer.bound = answer.optimal ? cbc.getObjValue() : cbc.getBestPossibleObjValue();
  if (const double* best = cbc.bestSolution()) {
    answer.values.assign(best, best + model.columns.size());
  }
  return answer;
}

// A bound on whole minor units, rounded up only beyond rounding noise.
std::int64_t whole_bound(double bound) {
  if (!(bound > 0)) return 0;
  return static_cast<std::int64_t>(std::ceil(bound - 1e-4 - 1e-9 * bound));
}

Terms scaled(Terms terms, double factor) {
  for (auto& [column, each] : terms) each *= factor;
  return terms;
}

class Search {
 public:
  Search(const PurchaseProblem& problem, const SolveWishes& wishes)
      : problem_(problem), wishes_(wishes), limit_(Stopwatch{}, wishes.seconds, wishes.stop) {
    solved_.rests_on = kRestsOn;
    solved_.floating = true;
    if (wishes.start) take(*wishes.start);
    model_ = linear_model(problem, best_ ? best_->cost : kMostGoods);
  }

  Solved run() {
    const Answer answer = improve(model_.cost, {wishes_.seconds, wishes_.stop});
    solved_.infeasible = answer.infeasible && !best_;
    if (!best_) return solved_;
    solved_.lower_bound = std::min(best_->cost, whole_bound(answer.bound));
    solved_.proven = answer.optimal && solved_.lower_bound == best_->cost;
    if (solved_.proven) settle_ties();
    if (best_->cost < solved_.lower_bound) {  // a better plan came up on the way: the claim was false
      solved_.proven = solved_.ties_settled = false;
      solved_.lower_bound = 0;
    }
    return solved_;
  }

 private:
  void take(Plan plan) {
    const std::optional<Rank> found = rank(problem_, plan);
    if (!found || (best_ && *best_ <= *found)) return;
    best_ = found;
    solved_.plan = std::move(plan);
  }

  Answer improve(const Terms& goal, const Effort& effort) {
    std::vector<double> start;
    if (best_) start = values_from_plan(problem_, model_, *solved_.plan);
    const Answer answer = solve(model_, goal, start, effort);
    solved_.nodes += answer.nodes;
    if (!answer.values.empty()) take(plan_from_values(problem_, model_, answer.values.data()));
    return answer;
  }

  // Solves again with what is settled held fixed: suppliers and packs first, then pieces, then lengths. The
  // effort is counted in nodes, so that the same order comes out on a slower machine.
  void settle_ties() {
    const double most_packs = static_cast<double>(best_->packs) + 1;
    Terms count = scaled(model_.suppliers, most_packs);
    count.insert(count.end(), model_.packs.begin(), model_.packs.end());
    hold(model_.cost, best_->cost);
    solved_.ties_settled = settled(
        count, [&] { return static_cast<double>(best_->suppliers) * most_packs + static_cast<double>(best_->packs); });
    hold(model_.suppliers, best_->suppliers);
    hold(model_.packs, best_->packs);
    solved_.ties_settled =
        settled(model_.pieces, [&] { return static_cast<double>(best_->pieces); }) && solved_.ties_settled;
    hold(model_.pieces, best_->pieces);
    solved_.ties_settled =
        settled(model_.tenths_mm, [&] { return static_cast<double>(best_->tenths_mm); }) && solved_.ties_settled;
  }

  // Whether the goal has provably reached its least value, which the best plan has.
  template <typename Reached>
  bool settled(const Terms& goal, Reached reached) {
    if (goal.empty()) return true;
    const double seconds = limit_.left();
    if (seconds <= 0) return false;
    const Answer answer = improve(goal, {seconds, wishes_.stop, kMostNodesForTies});
    return answer.optimal && std::abs(answer.bound - reached()) < 0.5;
  }

  void hold(const Terms& terms, std::int64_t most) {
    if (!terms.empty())
      model_.rows.push_back({-std::numeric_limits<double>::infinity(), static_cast<double>(most), terms});
  }

  const PurchaseProblem& problem_;
  const SolveWishes& wishes_;
  TimeLimit limit_;
  LinearModel model_;
  std::optional<Rank> best_;
  Solved solved_;
};

}  // namespace

RelaxedAnswer solve_relaxed(const LinearModel& model, const Terms& goal) {
  const std::unique_ptr<OsiClpSolverInterface> solver = loaded(model, goal);
  solver->initialSolve();
  RelaxedAnswer answer;
  answer.optimal = solver->isProvenOptimal();
  if (!answer.optimal) return answer;
  answer.values.assign(solver->getColSolution(), solver->getColSolution() + solver->getNumCols());
  answer.prices.assign(solver->getRowPrice(), solver->getRowPrice() + solver->getNumRows());
  return answer;
}

Solved solve_with_cbc(const PurchaseProblem& problem, const SolveWishes& wishes) {
  return Search(problem, wishes).run();
}

}  // namespace teetally
