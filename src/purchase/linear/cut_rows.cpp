// Rules about cutting as rows of the linear model.
#include <limits>

#include "purchase/linear/model.h"

namespace teetally {
namespace {

double real(std::int64_t n) { return static_cast<double>(n); }

void at_least(LinearModel& model, double low, Terms terms) {
  model.rows.push_back({low, std::numeric_limits<double>::infinity(), std::move(terms)});
}

int add_switch(LinearModel& model) {
  model.columns.push_back({0, 1, true, 3});
  return static_cast<int>(model.columns.size()) - 1;
}

void add_count(const LinearModel& model, const CountTerm& term, Terms& terms) {
  const double each = real(term.each);
  if (term.join >= 0) terms.emplace_back(model.join_columns[term.join], each);
  if (term.pack >= 0) {
    const PackColumns& columns = model.pack_columns[term.pack];
    for (const int lots : columns.lots) terms.emplace_back(lots, each);
    if (columns.spare >= 0) terms.emplace_back(columns.spare, each);
  }
  if (term.bundle < 0) return;
  const BundleColumns& columns = model.bundle_columns[term.bundle];
  const std::vector<int>& changed = columns.changed[term.part];
  if (term.choice < 0) terms.emplace_back(columns.count, each);
  for (std::size_t c = 0; c < changed.size(); ++c) {
    const bool chosen = static_cast<int>(c) == term.choice;
    const double share = term.choice < 0 ? -each : (chosen ? each : 0);
    if (changed[c] >= 0 && share != 0) terms.emplace_back(changed[c], share);
  }
}

Terms sum_of(const LinearModel& model, const Reach& reach) {
  Terms terms;
  for (const CountTerm& term : reach.terms) add_count(model, term, terms);
  return terms;
}

// Holds only where every listed system has the listed family: each other one lifts the row by all it asks for.
void add_lifted(LinearModel& model, const CutRule& rule, double least, Terms terms) {
  double low = least;
  for (const auto& [system, family] : rule.when) {
    const std::vector<int>& families = model.family_columns[system];
    if (families.empty()) continue;
    terms.emplace_back(families[family], -least);
    low -= least;
  }
  at_least(model, low, std::move(terms));
}

}  // namespace

void add_cut_rules(const PurchaseProblem& problem, LinearModel& model) {
  for (const CutRule& rule : problem.cut_rules) {
    model.reach_columns.emplace_back();
    if (rule.any_of.size() == 1) {
      add_lifted(model, rule, real(rule.any_of[0].least), sum_of(model, rule.any_of[0]));
      continue;
    }
    Terms one;
    for (const Reach& reach : rule.any_of) {
      const int on = add_switch(model);
      model.reach_columns.back().push_back(on);
      one.emplace_back(on, 1);
      Terms terms = sum_of(model, reach);
      terms.emplace_back(on, -real(reach.least));
      at_least(model, 0, std::move(terms));
    }
    add_lifted(model, rule, 1, std::move(one));
  }
}

}  // namespace teetally
