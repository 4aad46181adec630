#pragma once
// Positions in whole tenths of a millimetre: sums are exact; distances and projections go through doubles and are
// rounded to whole units. Lengths along one axis are exact.
#include "teetally/garden.h"

namespace teetally::garden {

Point operator+(Point a, Point b);
Point operator-(Point a, Point b);

Length distance(Point a, Point b);
// From a toward b by so much, or by so large a part of the way.
Point toward(Point a, Point b, Length by);
Point part_way(Point a, Point b, double part);

struct Nearest {
  Point at;
  double part = 0;  // of the way from the segment's start
  Length away;
};
Nearest nearest_on_segment(Point p, Point a, Point b);

// 0 when c lies straight on from a through b, 180 when it turns back; 0 when either leg has no length.
double turn_degrees(Point a, Point b, Point c);

// The nearest two points of two segments.
struct Approach {
  Point on_first, on_second;
  Length away;
};
Approach nearest_approach(Point a, Point b, Point c, Point d);
// The same, seen from above; nothing when they stay apart in plan.
struct PlanCrossing {
  Point on_first, on_second;
  Length height_between;
};
std::optional<PlanCrossing> plan_crossing(Point a, Point b, Point c, Point d);

}  // namespace teetally::garden
