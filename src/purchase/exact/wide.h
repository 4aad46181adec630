#pragma once
// A first look at large orders, where one sweep over every count of every bundle would take too long. Each bundle's
// price is split over its parts at one price a unit, so that a group sees a bundle as one more pack. The split comes
// from a linear program in doubles; the bound is computed from it in whole steps, so that any split gives a true bound.
// Other splits, one for each bundle, tell how many of it a plan within reach can hold.
#include "purchase/exact/group.h"
#include "purchase/exact/wide_bound.h"

namespace teetally {

struct WideLook {
  double bound = 0;         // scaled
  Table left;               // by column, scaled: what one bundle costs beyond the worth of its parts; at least zero
  std::vector<int> counts;  // by column: as the linear program has them, rounded down
};
WideLook look_wide(const ExactModel& model);

// What is left for a plan that costs at most `reach`: such a plan keeps its counts within `ranges`, and costs no less
// than `model` says of its counts. Whatever loose packs, credits and terms make cheaper is in the model.
struct WideTask {
  WideModel model;
  Domains ranges;          // by column; all of them empty when no plan is within reach
  Table unit_worth;        // by group
  bool all_plain = false;  // the model has every group as it is, and nothing is left out of bundles
};
WideTask wide_task(const ExactModel& model, double reach);

// Steps that one sweep takes, roughly, when each column has so many counts.
double work_of_sweep(const ExactModel& model, const std::vector<std::int64_t>& most);
double work_of_sweep(const WideTask& task);

}  // namespace teetally
