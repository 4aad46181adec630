#pragma once
// Head lost in a length of tubing at a flow, and its slope: metres and metres per (m3/s), odd in the flow,
// strictly increasing. Two formulas:
// - Darcy-Weisbach for smooth tubing. Laminar (Re <= 2000): f = 64/Re, which is Hagen-Poiseuille. Turbulent
//   (Re >= 4000): Blasius, f = 0.3164 Re^-0.25 (Blasius 1913, after Hager 2003; range 3,000 to 200,000). In between the
//   loss itself, f Re^2, is a cubic in Re that meets both ends in value and slope and rises all the way.
// - Hazen-Williams in the form of the EPANET 2.2 User Manual, chapter 3: h = 4.727 L Q^1.852 C^-1.852 d^-4.871 in
//   feet and cubic feet per second.

namespace teetally::hydraulics {

enum class Formula { darcy_weisbach, hazen_williams };

struct FrictionLaw {
  Formula formula = Formula::darcy_weisbach;
  double viscosity = 1.0e-6;  // m2/s, Darcy-Weisbach only
  double c = 140;             // Hazen-Williams only
};

struct Loss {
  double head = 0;   // m
  double slope = 0;  // m per m3/s
};

// f Re^2 and its slope: the dimensionless loss, for Re >= 0.
struct ScaledLoss {
  double value = 0;
  double slope = 0;
};
ScaledLoss smooth_loss(double reynolds);

// `inside` and `length` in metres, flow in m3/s, positive or negative.
Loss friction_loss(const FrictionLaw& law, double length, double inside, double flow);

double area(double inside);                                     // m2
double velocity(double inside, double flow);                    // m/s, never negative
double reynolds(double inside, double flow, double viscosity);  // never negative
// A loss of k velocity heads is factor * flow^2 metres.
double quadratic_factor(double k, double inside);

}  // namespace teetally::hydraulics
