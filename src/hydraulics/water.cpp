#include "hydraulics/water.h"

#include <algorithm>
#include <cmath>

namespace teetally::hydraulics {
namespace {

double density_at(double t) {
  const double above =
      999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))));
  return above / (1 + 16.879850e-3 * t);
}

// Table 3 of Huber et al.: rows are powers of (density ratio - 1), columns powers of (1/temperature ratio - 1).
constexpr double kTable3[7][6] = {
    {0.520094, 0.0850895, -1.08374, -0.289555, 0.0, 0.0},
    {0.222531, 0.999115, 1.88797, 1.26613, 0.0, 0.120573},
    {-0.281378, -0.906851, -0.772479, -0.489837, -0.257040, 0.0},
    {0.161913, 0.257399, 0.0, 0.0, 0.0, 0.0},
    {-0.0325372, 0.0, 0.0, 0.0698452, 0.0, 0.0},
    {0.0, 0.0, 0.0, 0.0, 0.00872102, 0.0},
    {0.0, 0.0, 0.0, -0.00435673, 0.0, -0.000593264},
};

double dynamic_viscosity_at(double t, double density) {
  const double heat = (t + 273.15) / 647.096;
  const double dense = density / 322.0;
  const double thin =
      100 * std::sqrt(heat) / (1.67752 + 2.20462 / heat + 0.6366564 / (heat * heat) - 0.241605 / (heat * heat * heat));
  double sum = 0;
  for (int column = 0; column < 6; ++column) {
    double inner = 0;
    for (int row = 0; row < 7; ++row) inner += kTable3[row][column] * std::pow(dense - 1, row);
    sum += std::pow(1 / heat - 1, column) * inner;
  }
  return 1e-6 * thin * std::exp(dense * sum);
}

}  // namespace

Water water_at(double celsius) {
  const double t = std::clamp(celsius, 0.0, 60.0);
  const double density = density_at(t);
  return {density, dynamic_viscosity_at(t, density) / density};
}

}  // namespace teetally::hydraulics
