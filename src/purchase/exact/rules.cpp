#include "purchase/exact/rules.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>

namespace teetally {
namespace {

constexpr std::size_t kMostCases = 96;

// One case: no joins to choose, and every rule is one sum of what is bought that holds whatever the families.
struct CutCase {
  PurchaseProblem problem;
  std::vector<std::int64_t> joins;  // of the problem it comes from
};
using CutCases = std::vector<CutCase>;

bool applies(const CutRule& rule, const std::vector<int>& family) {
  return std::all_of(rule.when.begin(), rule.when.end(),
                     [&](const auto& when) { return family[when.first] == when.second; });
}

CutCase no_case(const PurchaseProblem& problem) {
  CutCase bare{problem, std::vector<std::int64_t>(problem.joins.size(), 0)};
  bare.problem.joins.clear();
  bare.problem.cut_rules.clear();
  bare.problem.pieces.clear();
  return bare;
}

// Joins that some rule counts.
std::vector<bool> joins_that_count(const std::vector<CutRule>& rules, std::size_t joins) {
  std::vector<bool> count(joins, false);
  for (const CutRule& rule : rules) {
    for (const Reach& reach : rule.any_of) {
      for (const CountTerm& term : reach.terms) {
        if (term.join >= 0 && term.each != 0) count[term.join] = true;
      }
    }
  }
  return count;
}

// Each case once for every number of joins of one kind; false when there are too many.
bool choose_joins(const JoinOffer& offer, std::size_t join, CutCases& cases) {
  if (static_cast<std::size_t>(offer.most) >= kMostCases) return false;
  const std::size_t before = cases.size();
  for (std::int64_t made = 1; made <= offer.most; ++made) {
    for (std::size_t i = 0; i < before; ++i) {
      CutCase& more = cases.emplace_back(cases[i]);
      more.joins[join] = made;
      more.problem.needs[offer.need] += made;
    }
    if (cases.size() > kMostCases) return false;
  }
  return true;
}

// The sum without joins, which the case settles.
Reach without_joins(const Reach& reach, const std::vector<std::int64_t>& joins) {
  Reach rest;
  rest.least = reach.least;
  for (const CountTerm& term : reach.terms) {
    if (term.join >= 0) {
      rest.least -= term.each * joins[term.join];
    } else {
      rest.terms.push_back(term);
    }
  }
  return rest;
}

// Each case once for every sum of a rule that may be the one reached.
CutCases choose_sums(const CutRule& rule, const CutCases& cases) {
  CutCases result;
  for (const CutCase& of : cases) {
    std::vector<Reach> open;
    for (const Reach& reach : rule.any_of) open.push_back(without_joins(reach, of.joins));
    if (std::any_of(open.begin(), open.end(), [](const Reach& reach) { return reach.least <= 0; })) {
      result.push_back(of);
      continue;
    }
    for (Reach& reach : open) result.emplace_back(of).problem.cut_rules.push_back({{}, {std::move(reach)}});
  }
  return result;
}

using Named = std::array<int, 4>;  // pack, bundle, part, choice

std::map<Named, std::int64_t> by_name(const Reach& reach) {
  std::map<Named, std::int64_t> each;
  for (const CountTerm& term : reach.terms) each[{term.pack, term.bundle, term.part, term.choice}] += term.each;
  return each;
}

// Whether all that reaches `strong` also reaches `weak`.
bool follows(const Reach& weak, const Reach& strong) {
  const std::map<Named, std::int64_t> in_weak = by_name(weak);
  const std::map<Named, std::int64_t> in_strong = by_name(strong);
  return std::all_of(in_strong.begin(), in_strong.end(), [&](const auto& term) {
    const auto found = in_weak.find(term.first);
    const std::int64_t each = found == in_weak.end() ? 0 : found->second;
    return each * strong.least >= term.second * weak.least;
  });
}

Reach in_steps(Reach reach) {
  std::int64_t step = 0;
  for (const CountTerm& term : reach.terms) step = std::gcd(step, term.each);
  if (step <= 1) return reach;
  for (CountTerm& term : reach.terms) term.each /= step;
  reach.least = (reach.least + step - 1) / step;
  return reach;
}

// All cases under one choice of families; nullopt when there are too many.
std::optional<CutCases> cut_cases(const PurchaseProblem& problem, const std::vector<int>& family) {
  std::vector<CutRule> rules;
  std::copy_if(problem.cut_rules.begin(), problem.cut_rules.end(), std::back_inserter(rules),
               [&](const CutRule& rule) { return applies(rule, family); });
  CutCases cases{no_case(problem)};
  const std::vector<bool> count = joins_that_count(rules, problem.joins.size());
  for (std::size_t j = 0; j < count.size(); ++j) {
    if (count[j] && !choose_joins(problem.joins[j], j, cases)) return std::nullopt;
  }
  for (const CutRule& rule : rules) {
    cases = choose_sums(rule, cases);
    if (cases.size() > kMostCases) return std::nullopt;
  }
  return cases;
}

// False where the search does not hold it.
bool add_model(const PurchaseProblem& problem, const std::vector<int>& choice, const Measure& measure,
               const std::vector<std::int64_t>& joins, std::vector<CaseModel>& models) {
  ModelAnswer answer = arrange(problem, choice, measure);
  if (!answer.why.empty()) return false;
  if (!answer.impossible) models.push_back({std::move(*answer.model), joins});
  return true;
}

}  // namespace

std::optional<CaseModels> model_cases(const PurchaseProblem& problem, const std::vector<std::vector<int>>& choices,
                                      const Measure& measure) {
  CaseModels result;
  for (const std::vector<int>& choice : choices) {
    if (problem.cut_rules.empty()) {
      const std::vector<std::int64_t> no_joins(problem.joins.size(), 0);
      if (!add_model(problem, choice, measure, no_joins, result.models)) return std::nullopt;
      continue;
    }
    std::optional<CutCases> cases = cut_cases(problem, choice);
    if (!cases) return std::nullopt;
    for (CutCase& one : *cases) {
      const PurchaseProblem& of = result.problems.emplace_back(std::move(one.problem));
      if (!add_model(of, choice, measure, one.joins, result.models)) return std::nullopt;
    }
  }
  return result;
}

std::vector<Reach> counted_sums(const PurchaseProblem& problem) {
  std::vector<Reach> sums;
  for (const CutRule& rule : problem.cut_rules) {
    const Reach reach = in_steps(rule.any_of.front());
    const auto weaker = [&](const Reach& other) { return follows(reach, other); };
    if (reach.least <= 0 || std::any_of(sums.begin(), sums.end(), weaker)) continue;
    sums.erase(std::remove_if(sums.begin(), sums.end(), [&](const Reach& other) { return follows(other, reach); }),
               sums.end());
    sums.push_back(reach);
  }
  return sums;
}

std::int64_t counted_in(const Reach& reach, int pack) {
  std::int64_t sum = 0;
  for (const CountTerm& term : reach.terms) sum += term.pack == pack ? term.each : 0;
  return sum;
}

std::int64_t counted_in(const Reach& reach, int bundle, int part, int choice) {
  std::int64_t sum = 0;
  for (const CountTerm& term : reach.terms) {
    const bool same = term.bundle == bundle && term.part == part && term.choice == choice;
    sum += same ? term.each : 0;
  }
  return sum;
}

}  // namespace teetally
