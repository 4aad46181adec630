#pragma once
// The ground on the sheet: a scale that fits the whole garden, and a grid of round lengths to measure by.
#include <vector>

#include "render/page/shapes.h"
#include "teetally/render/plan.h"

namespace teetally {

inline constexpr double kSheetWidth = 800;
inline constexpr double kSheetMargin = 24;

struct GroundView {
  Box field;                // where the garden is drawn, with room for labels around it
  double per_tenth_mm = 1;  // sheet units
  Length west, south;       // of the field's lower left corner
  Length grid;              // between two lines of the grid
  Length east_end, north_end;

  PlanSpot spot(const Point& at) const;
  double span(Length length) const { return static_cast<double>(length.tenths_mm) * per_tenth_mm; }
};
// `top` is where the field starts on the sheet.
GroundView view_ground(const PlanSubject& subject, UnitSystem units, double top);

// Lines of the grid with their distances from the design's zero point written along the edges.
std::string grid_elements(const GroundView& view, UnitSystem units);
std::string scale_bar(const GroundView& view, UnitSystem units, PlanSpot at);
std::string north_arrow(PlanSpot at);

std::string short_length(Length length, UnitSystem units);  // to the inch or the centimetre, for labels

}  // namespace teetally
