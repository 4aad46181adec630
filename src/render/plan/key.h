#pragma once
// The key below the plan: what each shape and line means, with the number, the words and the count of its need.
#include <string>
#include <vector>

#include "render/plan/parts.h"

namespace teetally {

struct SignMeaning {
  std::string sign;  // SVG around 0,0 of a group of its own
  std::string words;
};
std::vector<SignMeaning> sign_meanings(const PlanSubject& subject, const PlanNumbers& numbers,
                                       const std::vector<PlanPart>& parts, UnitSystem units);
std::string layer_words(PlanLayer layer);  // what the figures along the lines are

struct PlanKey {
  std::string elements;
  double bottom = 0;
};
PlanKey plan_key(const PlanSubject& subject, const PlanNumbers& numbers, const std::vector<PlanPart>& parts,
                 PlanLayer layer, UnitSystem units, double top);

}  // namespace teetally
