#pragma once
// How long a row of outlets may be: the most outlets, at their spacing, that stay within the wanted flow variation
// and, when compensating, within their working range, with a given head where the row starts.
#include "hydraulics/outlet.h"
#include "hydraulics/settings.h"

namespace teetally::hydraulics {

struct RowKind {
  Outlet law;
  double spacing = 0.3;    // m
  double inside = 0.0043;  // m
  double climb = 0;        // m of height per m of row
};

inline constexpr int kMostOutletsOfARow = 1000;

// Zero when not even one outlet passes; kMostOutletsOfARow when that many still pass.
int most_outlets(const RowKind& row, double inlet_head, const Settings& settings);
bool row_is_even(const RowKind& row, int outlets, double inlet_head, const Settings& settings);

}  // namespace teetally::hydraulics
