#include "hydraulics/wording.h"

#include <fmt/format.h>

#include <cmath>

namespace teetally::hydraulics {
namespace {

// Three figures are more than any garden measurement holds; whole numbers from 100 up.
std::string rounded(double value) {
  const double size = std::abs(value);
  const int places = size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2;
  std::string text = fmt::format("{:.{}f}", value, places);
  if (places > 0) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace

std::string flow_text(double m3_per_s, UnitSystem units) {
  if (units == UnitSystem::metric) return rounded(m3_per_s * 3.6e6) + " l/h";
  return rounded(m3_per_s * 3600 / 3.785411784e-3) + " gph";
}

std::string pressure_text(double pa, UnitSystem units) {
  return units == UnitSystem::metric ? rounded(pa / 1e5) + " bar" : rounded(pa / 6894.757) + " psi";
}

std::string velocity_text(double m_per_s, UnitSystem units) {
  return units == UnitSystem::metric ? rounded(m_per_s) + " m/s" : rounded(m_per_s / 0.3048) + " ft/s";
}

std::string number_text(double value) { return rounded(value); }

std::string percent_text(double part) { return fmt::format("{:.0f} %", part * 100); }

}  // namespace teetally::hydraulics
