#pragma once
// The key below the plan: what each shape and line means, with the number, the words and the count of its need.
#include <string>
#include <vector>

#include "render/plan/parts.h"

namespace teetally {

struct PlanKey {
  std::string elements;
  double bottom = 0;
};
PlanKey plan_key(const PlanSubject& subject, const PlanNumbers& numbers, const std::vector<PlanPart>& parts,
                 PlanLayer layer, UnitSystem units, double top);

}  // namespace teetally
