#pragma once
// Water at a temperature: density and kinematic viscosity at atmospheric pressure, for 0 to 60 Celsius.
// Density: Kell, J. Chem. Eng. Data 20 (1975) 97, the rational form. Viscosity: Huber et al., J. Phys. Chem.
// Ref. Data 38 (2009) 101, equations 2 and 11 with tables 2 and 3 (the IAPWS 2008 formulation), no critical term.

namespace teetally::hydraulics {

inline constexpr double kGravity = 9.80665;  // m/s2, standard

struct Water {
  double density = 998.2;     // kg/m3
  double viscosity = 1.0e-6;  // kinematic, m2/s
  double pa_per_m() const { return density * kGravity; }
};

Water water_at(double celsius);

}  // namespace teetally::hydraulics
