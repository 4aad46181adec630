#include "purchase/exact/choices.h"

#include <algorithm>

#include "purchase/exact/bound.h"
#include "purchase/exact/lines.h"
#include "purchase/exact/plans.h"
#include "purchase/exact/wide.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostFamilyChoices = 4096;
constexpr double kMostWork = 1e9;  // of a sweep: some seconds
constexpr int kSweeps = 2;

std::vector<std::int64_t> most_of(const ExactModel& model) {
  std::vector<std::int64_t> most;
  for (const BundleColumn& column : model.columns) most.push_back(column.most);
  return most;
}

// A bound, or nothing where a model holds nothing better than the best.
std::optional<double> glance(const ExactModel& model, const BestSoFar& best) {
  if (begins_otherwise(model)) return -kNever;
  Bound bound(model);
  SearchNode node = bound.first_node(most_of(model));
  for (int i = 0; i < kSweeps; ++i) {
    if (!bound.sweep(node, i % 2 == 0, best.reach())) return std::nullopt;
  }
  return node.bound;
}

void keep_promising(std::vector<CaseModel>& models, const BestSoFar& best) {
  std::vector<std::pair<double, std::size_t>> order;
  for (std::size_t m = 0; m < models.size(); ++m) {
    if (const auto bound = glance(models[m].model, best)) order.emplace_back(*bound, m);
  }
  std::sort(order.begin(), order.end());
  std::vector<CaseModel> kept;
  for (const auto& [bound, m] : order) kept.push_back(std::move(models[m]));
  models.swap(kept);
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

bool begins_otherwise(const ExactModel& model) { return is_line_list(model) || is_wide(model, most_of(model)); }

bool is_wide(const ExactModel& model, const std::vector<std::int64_t>& most) {
  return work_of_sweep(model, most) > kMostWork;
}

void survey(std::vector<CaseModel>& models, Filler& filler, BestSoFar& best, TimeLimit limit, bool best_is_near) {
  if (models.size() > 1) keep_promising(models, best);  // what goes needs no plan of its own
  for (const CaseModel& of : models) {
    if (best_is_near || begins_otherwise(of.model)) continue;
    auto found = Plans(of.model, filler, limit.share(0.5)).first(best.worth);
    if (!found) continue;
    found->plan.joins = of.joins;
    best.take(std::move(found->plan), found->worth);
  }
  if (models.size() > 1) keep_promising(models, best);
}

}  // namespace teetally
