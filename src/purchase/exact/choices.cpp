#include "purchase/exact/choices.h"

#include <algorithm>
#include <cmath>

#include "purchase/exact/lines.h"
#include "purchase/exact/plans.h"
#include "purchase/exact/wide.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostFamilyChoices = 4096;
constexpr double kMostWork = 1e9;  // of a sweep: some seconds
constexpr int kSweeps = 2;

// Raises the bounds of what is open a little, and drops roots that hold nothing better than the best; then their least
// bound.
double glance(SurveyedCase& open, const BestSoFar& best) {
  const ExactModel& model = open.of->model;
  Bound bound(model);
  if (open.roots.empty()) open.roots = roots_of(model, bound, most_affordable(model, best));
  double least = kNever;
  std::erase_if(open.roots, [&](SearchNode& root) {
    for (int i = 0; i < kSweeps; ++i) {
      if (!bound.sweep(root, i % 2 == 0, best.reach())) return true;
    }
    least = std::min(least, root.bound);
    return false;
  });
  return least;
}

void keep_promising(std::vector<SurveyedCase>& cases, const BestSoFar& best) {
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const double bound = begins_otherwise(cases[i].of->model, best) ? -kNever : glance(cases[i], best);
    if (bound < kNever) order.emplace_back(bound, i);
  }
  std::sort(order.begin(), order.end());
  std::vector<SurveyedCase> kept;
  for (const auto& [bound, i] : order) kept.push_back(std::move(cases[i]));
  cases.swap(kept);
}

}  // namespace

std::vector<std::vector<int>> family_choices(const PurchaseProblem& problem) {
  std::vector<std::vector<int>> choices{std::vector<int>(problem.families.size(), 0)};
  for (std::size_t system = 0; system < problem.families.size(); ++system) {
    const std::size_t before = choices.size();
    for (int family = 1; family < problem.families[system]; ++family) {
      for (std::size_t i = 0; i < before; ++i) {
        choices.push_back(choices[i]);
        choices.back()[system] = family;
      }
    }
    if (static_cast<std::int64_t>(choices.size()) > kMostFamilyChoices) return {};
  }
  return choices;
}

std::vector<std::int64_t> most_affordable(const ExactModel& model, const BestSoFar& best) {
  std::vector<std::int64_t> most;
  for (const BundleColumn& column : model.columns) most.push_back(column.most);
  for (std::size_t c = 0; c < most.size(); ++c) {
    const BundleColumn& column = model.columns[c];
    std::int64_t price = column.price - column.useless_credit;
    for (const auto& [g, t] : column.groups) {
      for (const ColumnPart& part : model.groups[g].columns[t].parts) price -= part.credit;
    }
    double each = kNever, least = kNever;
    for (const SupplierState& state : model.suppliers[column.supplier]) {
      if (!state.used) continue;
      each = std::min(each, model.measure.goods(price, state.rate));
      least = std::min(least, state.fixed);
    }
    const double room = std::max(0.0, best.reach() - least);
    if (each > 0) most[c] = static_cast<std::int64_t>(std::min(static_cast<double>(most[c]), std::floor(room / each)));
  }
  return most;
}

bool begins_otherwise(const ExactModel& model, const BestSoFar& best) {
  return is_line_list(model) || is_wide(model, most_affordable(model, best));
}

bool is_wide(const ExactModel& model, const std::vector<std::int64_t>& most) {
  return work_of_sweep(model, most) > kMostWork;
}

std::vector<SearchNode> roots_of(const ExactModel& model, const Bound& bound, const std::vector<std::int64_t>& most) {
  const PurchaseProblem& problem = *model.problem;
  SearchNode all = bound.first_node(most);
  if (!problem.bundle_wanted) return {std::move(all)};
  std::vector<int> wanted;
  for (std::size_t c = 0; c < model.columns.size(); ++c) {
    const auto& list = problem.wanted_bundles;
    if (std::count(list.begin(), list.end(), model.columns[c].bundle) > 0) wanted.push_back(static_cast<int>(c));
  }
  std::vector<SearchNode> roots;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    SearchNode node = all;
    for (std::size_t k = 0; k <= i; ++k) {
      std::vector<bool> keep;
      for (int count : node.domains[wanted[k]]) keep.push_back((count == 0) != (k == i));
      bound.restrict(node, wanted[k], keep);
    }
    if (!node.domains[wanted[i]].empty()) roots.push_back(std::move(node));
  }
  return roots;
}

std::vector<SurveyedCase> survey(const std::vector<CaseModel>& models, Filler& filler, BestSoFar& best, TimeLimit limit,
                                 bool best_is_near) {
  std::vector<SurveyedCase> cases;
  for (const CaseModel& of : models) cases.push_back({&of, {}});
  if (cases.size() > 1) keep_promising(cases, best);  // what goes needs no plan of its own
  if (best_is_near) return cases;
  for (const SurveyedCase& open : cases) {
    const CaseModel& of = *open.of;
    if (begins_otherwise(of.model, best)) continue;
    auto found = Plans(of.model, filler, limit.share(0.5)).first(best.worth);
    if (!found) continue;
    found->plan.joins = of.joins;
    best.take(std::move(found->plan), found->worth);
  }
  if (cases.size() > 1) keep_promising(cases, best);
  return cases;
}

}  // namespace teetally
