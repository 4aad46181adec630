#pragma once
// What an outlet gives at a head, and the slope: q = rated (h / rated_at)^x. A compensating outlet gives its rated
// flow from its least working head up; below that it falls as a turbulent opening (x = 0.5), which is how its
// labyrinth behaves with the diaphragm at rest. No outlet takes water in: at or below zero head it gives nothing.
// Exponents: 1 laminar, 0.57 smooth turbulent, 0.5 fully turbulent, 0 compensating.

namespace teetally::hydraulics {

struct Outlet {
  double rated = 0;     // m3/s, of all outlets alike at one spot together
  double rated_at = 1;  // m
  double exponent = 0.5;
  bool compensating = false;
  double least = 0;  // m, compensating only
};

struct OutletFlow {
  double flow = 0;   // m3/s
  double slope = 0;  // m3/s per m
};
OutletFlow outlet_flow(const Outlet& outlet, double head);

}  // namespace teetally::hydraulics
