#include "garden/geometry.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>

namespace teetally::garden {

namespace {

struct Vector {
  double east = 0, north = 0, up = 0;
};

Vector vector_of(Point p) {
  return {static_cast<double>(p.east.tenths_mm), static_cast<double>(p.north.tenths_mm),
          static_cast<double>(p.up.tenths_mm)};
}

double dot(Vector a, Vector b) { return a.east * b.east + a.north * b.north + a.up * b.up; }
double norm(Vector a) { return std::sqrt(dot(a, a)); }

Length rounded(double value) { return Length{std::llround(value)}; }

}  // namespace

Point operator+(Point a, Point b) { return {a.east + b.east, a.north + b.north, a.up + b.up}; }
Point operator-(Point a, Point b) { return {a.east - b.east, a.north - b.north, a.up - b.up}; }

Length distance(Point a, Point b) {
  const Point d = b - a;
  const int moving = (d.east.tenths_mm != 0) + (d.north.tenths_mm != 0) + (d.up.tenths_mm != 0);
  if (moving <= 1) return Length{std::llabs(d.east.tenths_mm + d.north.tenths_mm + d.up.tenths_mm)};
  return rounded(norm(vector_of(d)));
}

Point part_way(Point a, Point b, double part) {
  const Vector d = vector_of(b - a);
  return a + Point{rounded(d.east * part), rounded(d.north * part), rounded(d.up * part)};
}

Point toward(Point a, Point b, Length by) {
  const double whole = norm(vector_of(b - a));
  if (whole <= 0) return a;
  return part_way(a, b, static_cast<double>(by.tenths_mm) / whole);
}

Nearest nearest_on_segment(Point p, Point a, Point b) {
  const Vector along = vector_of(b - a);
  const double square = dot(along, along);
  const double part = square > 0 ? std::clamp(dot(vector_of(p - a), along) / square, 0.0, 1.0) : 0.0;
  const Point at = part_way(a, b, part);
  return {at, part, distance(p, at)};
}

double turn_degrees(Point a, Point b, Point c) {
  const Vector in = vector_of(b - a), out = vector_of(c - b);
  const double lengths = norm(in) * norm(out);
  if (lengths <= 0) return 0;
  return std::acos(std::clamp(dot(in, out) / lengths, -1.0, 1.0)) * 180.0 / std::numbers::pi;
}

Approach nearest_approach(Point a, Point b, Point c, Point d) {
  // Inside both segments when they are not parallel and the common perpendicular meets both; otherwise at an end.
  const Vector u = vector_of(b - a), v = vector_of(d - c), w = vector_of(a - c);
  const double uu = dot(u, u), uv = dot(u, v), vv = dot(v, v), uw = dot(u, w), vw = dot(v, w);
  const double area = uu * vv - uv * uv;
  Approach best{a, c, distance(a, c)};
  const auto offer = [&](Point p, Point q) {
    const Length away = distance(p, q);
    if (away < best.away) best = {p, q, away};
  };
  if (area > 1e-9 * uu * vv) {
    const double s = (uv * vw - vv * uw) / area, t = (uu * vw - uv * uw) / area;
    if (s >= 0 && s <= 1 && t >= 0 && t <= 1) offer(part_way(a, b, s), part_way(c, d, t));
  }
  offer(a, nearest_on_segment(a, c, d).at);
  offer(b, nearest_on_segment(b, c, d).at);
  offer(nearest_on_segment(c, a, b).at, c);
  offer(nearest_on_segment(d, a, b).at, d);
  return best;
}

std::optional<PlanCrossing> plan_crossing(Point a, Point b, Point c, Point d) {
  const Vector u = vector_of(b - a), v = vector_of(d - c), w = vector_of(c - a);
  const double area = u.east * v.north - u.north * v.east;
  const double sizes = std::hypot(u.east, u.north) * std::hypot(v.east, v.north);
  if (std::abs(area) <= 1e-9 * sizes) return std::nullopt;  // parallel, or one stands upright
  const double s = (w.east * v.north - w.north * v.east) / area;
  const double t = (w.east * u.north - w.north * u.east) / area;
  if (s < 0 || s > 1 || t < 0 || t > 1) return std::nullopt;
  const Point p = part_way(a, b, s), q = part_way(c, d, t);
  return PlanCrossing{p, q, Length{std::llabs(p.up.tenths_mm - q.up.tenths_mm)}};
}

}  // namespace teetally::garden
