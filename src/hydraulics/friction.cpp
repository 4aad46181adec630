#include "hydraulics/friction.h"

#include <cmath>
#include <numbers>

#include "hydraulics/water.h"

namespace teetally::hydraulics {
namespace {

constexpr double kLaminarTo = 2000, kTurbulentFrom = 4000;

ScaledLoss laminar(double re) { return {64 * re, 64}; }

ScaledLoss blasius(double re) {
  const double value = 0.3164 * std::pow(re, 1.75);
  return {value, 1.75 * value / re};
}

// Cubic Hermite. The end slopes are 0.25 and 1.10 of the secant's; Fritsch and Carlson's condition (both at most
// three) makes it monotone.
ScaledLoss between(double re) {
  const ScaledLoss a = laminar(kLaminarTo), b = blasius(kTurbulentFrom);
  const double width = kTurbulentFrom - kLaminarTo;
  const double t = (re - kLaminarTo) / width;
  const double rise = b.value - a.value;
  const double value = a.value + rise * t * t * (3 - 2 * t) + width * t * (1 - t) * (a.slope * (1 - t) - b.slope * t);
  const double slope = rise * 6 * t * (1 - t) / width + a.slope * (1 - t) * (1 - 3 * t) + b.slope * t * (3 * t - 2);
  return {value, slope};
}

Loss darcy_weisbach(double viscosity, double length, double inside, double flow) {
  // Re = 4 Q / (pi d nu); h = f L/d v^2/2g = (f Re^2) L nu^2 / (2 g d^3).
  const double re_per_flow = 4 / (std::numbers::pi * inside * viscosity);
  const double scale = length * viscosity * viscosity / (2 * kGravity * inside * inside * inside);
  const ScaledLoss loss = smooth_loss(re_per_flow * flow);
  return {scale * loss.value, scale * loss.slope * re_per_flow};
}

Loss hazen_williams(double c, double length, double inside, double flow) {
  constexpr double kFoot = 0.3048, kCubicFoot = kFoot * kFoot * kFoot;
  const double factor = kFoot * 4.727 * (length / kFoot) * std::pow(c, -1.852) * std::pow(inside / kFoot, -4.871);
  // Below this flow the curve is replaced by its chord, so that the slope at rest is not zero.
  constexpr double kLeast = 1e-12;  // m3/s
  if (flow < kLeast) {
    const double slope = factor * std::pow(kLeast / kCubicFoot, 1.852) / kLeast;
    return {slope * flow, slope};
  }
  const double head = factor * std::pow(flow / kCubicFoot, 1.852);
  return {head, 1.852 * head / flow};
}

}  // namespace

ScaledLoss smooth_loss(double re) {
  if (re <= kLaminarTo) return laminar(re);
  if (re >= kTurbulentFrom) return blasius(re);
  return between(re);
}

Loss friction_loss(const FrictionLaw& law, double length, double inside, double flow) {
  const double forward = std::abs(flow);
  Loss loss = law.formula == Formula::darcy_weisbach ? darcy_weisbach(law.viscosity, length, inside, forward)
                                                     : hazen_williams(law.c, length, inside, forward);
  if (flow < 0) loss.head = -loss.head;
  return loss;
}

double area(double inside) { return std::numbers::pi * inside * inside / 4; }
double velocity(double inside, double flow) { return std::abs(flow) / area(inside); }
double reynolds(double inside, double flow, double viscosity) { return velocity(inside, flow) * inside / viscosity; }

double quadratic_factor(double k, double inside) {
  const double a = area(inside);
  return k / (2 * kGravity * a * a);
}

}  // namespace teetally::hydraulics
