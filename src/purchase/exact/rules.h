#pragma once
// Cut rules for the exact search. A rule that is one sum of coils becomes one more thing that the coils' group demands,
// counted beside what they cover. What does not fit that is tried case by case: which of a rule's sums is reached, and
// how many joins are made.
#include <cstdint>
#include <deque>
#include <optional>
#include <vector>

#include "purchase/exact/model.h"
#include "purchase/problem.h"

namespace teetally {

// A model under one choice of families, in one case.
struct CaseModel {
  ExactModel model;
  std::vector<std::int64_t> joins;  // made in this case, by PurchaseProblem::joins
};
struct CaseModels {
  std::deque<PurchaseProblem>
      problems;  // that models rest on: no joins to choose, every rule is one sum of what is bought
  std::vector<CaseModel> models;
};
// A model for each choice and each case that is possible; nullopt where the search does not hold one, or there are too
// many cases.
std::optional<CaseModels> model_cases(const PurchaseProblem& problem, const std::vector<std::vector<int>>& choices,
                                      const Measure& measure);

// The sums of a case's rules in the largest steps that count the same; rules that follow from others are left out.
std::vector<Reach> counted_sums(const PurchaseProblem& problem);
// What one lot of a pack, or one part of a bundle, counts in a sum.
std::int64_t counted_in(const Reach& reach, int pack);
std::int64_t counted_in(const Reach& reach, int bundle, int part, int choice);

}  // namespace teetally
