#pragma once
// A PurchaseProblem as a mixed-integer linear program whose best solutions are the problem's best plans, to the
// minor unit: rounded discounts and taxes are integer columns held by inequalities that no other integer than
// the rounded one and worse ones satisfy. Engines that know no purchases (CBC; the tests' second solver)
// solve this; values go in and plans come out through the two functions below.
#include <utility>
#include <vector>

#include "purchase/plan.h"
#include "purchase/problem.h"

namespace teetally {

using Terms = std::vector<std::pair<int, double>>;  // column, coefficient

struct ModelColumn {
  double low = 0, high = 0;
  bool integer = true;
  int branch_first = 9;  // lower ones decide more: suppliers, brackets, families, then counts
};
struct ModelRow {
  double low = 0, high = 0;
  Terms terms;
};

struct PackColumns {
  std::vector<int> lots;  // by price step
  int spare = -1;         // lots beyond those needed, for packs of one price; they cover nothing
  std::vector<int> on;    // by price step; -1 where the step needs no switch
};
struct BundleColumns {
  int count = -1;
  std::vector<std::vector<int>> changed;  // by part, then choice; -1 where never worth it
};
struct SupplierColumns {
  int order = -1;               // 1 when anything is bought; -1 where it changes nothing
  std::vector<int> bracket;     // by bracket; empty when there is one only
  std::vector<int> goods;       // by bracket; empty unless discounts differ
  int discount = -1, tax = -1;  // rounded amounts
};

struct LinearModel {
  std::vector<ModelColumn> columns;
  std::vector<ModelRow> rows;
  Terms cost, suppliers, packs, pieces, tenths_mm;  // the parts of Rank
  std::vector<PackColumns> pack_columns;
  std::vector<BundleColumns> bundle_columns;
  std::vector<SupplierColumns> supplier_columns;
  std::vector<std::vector<int>> family_columns;  // by system, then family; empty where there is no choice
  std::vector<int> serving_columns;              // share of the need that is served this way; -1 when implied
  std::vector<int> join_columns;                 // by join; empty while there are no rules about cutting
  std::vector<std::vector<int>> reach_columns;   // by rule about cutting, then sum; empty where there is one sum
};

// What a need may ask for at most: with every join that may be made, once joins are in the model.
std::int64_t most_wanted(const PurchaseProblem& problem, int need);

// Rows for the problem's rules about cutting, once everything they count has its columns.
void add_cut_rules(const PurchaseProblem& problem, LinearModel& model);

// `most_cost`: the cost of a plan at hand; better plans only need to be in the model.
LinearModel linear_model(const PurchaseProblem& problem, std::int64_t most_cost);

Plan plan_from_values(const PurchaseProblem& problem, const LinearModel& model, const double* values);
// The plan must keep the problem's rules.
std::vector<double> values_from_plan(const PurchaseProblem& problem, const LinearModel& model, const Plan& plan);

// The model with every column continuous, solved in doubles (linear/cbc.cpp): what comes out is a suggestion.
struct RelaxedAnswer {
  bool optimal = false;
  std::vector<double> values;  // by column
  std::vector<double> prices;  // by row: what one unit more would cost
};
RelaxedAnswer solve_relaxed(const LinearModel& model, const Terms& goal);

}  // namespace teetally
