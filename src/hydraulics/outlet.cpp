#include "hydraulics/outlet.h"

#include <cmath>

namespace teetally::hydraulics {
namespace {

// Power law whose steep start is cut by a straight line below a ten-thousandth of the rated head, so that the slope
// stays finite; the flow there is below a hundredth of the rated flow for x = 0.5.
OutletFlow power(double rated, double rated_at, double exponent, double head) {
  if (head <= 0) return {};
  const double least = 1e-4 * rated_at;
  if (head < least) {
    const double slope = rated * std::pow(1e-4, exponent) / least;
    return {slope * head, slope};
  }
  const double flow = rated * std::pow(head / rated_at, exponent);
  return {flow, exponent * flow / head};
}

}  // namespace

OutletFlow outlet_flow(const Outlet& outlet, double head) {
  if (!outlet.compensating) return power(outlet.rated, outlet.rated_at, outlet.exponent, head);
  if (head >= outlet.least) return {outlet.rated, 0};
  return power(outlet.rated, outlet.least, 0.5, head);
}

}  // namespace teetally::hydraulics
