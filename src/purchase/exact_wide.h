#pragma once
// A bound for large orders, where one sweep over every count of every bundle would take too long. Each bundle's price
// is split over its parts at one price a unit, so that a group sees a bundle as one more pack. The split comes from a
// linear program in doubles; the bound is computed from it in whole steps, so that any split gives a true bound.
#include "purchase/exact_group.h"

namespace teetally {

struct WideLook {
  double bound = 0;         // scaled
  Table left;               // by column, scaled: what one bundle costs beyond the worth of its parts; at least zero
  std::vector<int> counts;  // by column: as the linear program has them, rounded down
};
WideLook look_wide(const ExactModel& model);

// Steps that one sweep takes, roughly, when each column has so many counts.
double work_of_sweep(const ExactModel& model, const std::vector<std::int64_t>& most);

}  // namespace teetally
