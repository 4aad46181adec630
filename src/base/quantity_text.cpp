#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "base/decimal.h"
#include "base/units.h"
#include "teetally/base/quantity.h"

namespace teetally {
namespace {

Fraction in_unit(std::int64_t kept, const Unit& unit) {
  return {static_cast<Wide>(kept) * unit.size.denominator, unit.size.numerator};
}

// The shortest text of up to two decimals that reads back as the same value; when there is none, rounded to
// `decimals` (values below one to two decimals, so that a small flow does not become nothing).
std::string sensible(std::int64_t kept, const Unit& unit, int decimals) {
  const Fraction value = in_unit(kept, unit);
  for (int tried = 0; tried <= 2; ++tried) {
    const std::string text = fixed_text(value, tried);
    const auto magnitude = read_decimal(text[0] == '-' ? std::string_view(text).substr(1) : std::string_view(text));
    if (!magnitude) continue;
    const auto scaled = product(*magnitude, unit.size);
    const auto back = scaled ? rounded(*scaled) : std::nullopt;
    if (back && *back == std::abs(kept)) return text + " " + std::string(unit.name);
  }
  const bool small = value.numerator < value.denominator && value.numerator > -value.denominator;
  return trimmed_zeros(fixed_text(value, small ? 2 : decimals)) + " " + std::string(unit.name);
}

std::string sixteenths(std::int64_t count) {
  std::int64_t below = 16;
  while (count % 2 == 0) {
    count /= 2;
    below /= 2;
  }
  return fmt::format("{}/{}", count, below);
}

// To the nearest sixteenth of an inch: 254 tenths of a millimetre an inch.
std::string feet_and_inches(std::int64_t tenths_mm) {
  const std::int64_t magnitude = std::abs(tenths_mm);
  const std::int64_t in_sixteenths = (magnitude * 16 + 127) / 254;
  const std::int64_t whole_feet = in_sixteenths / (std::int64_t{16} * 12);
  const std::int64_t whole_inches = in_sixteenths / 16 % 12;
  const std::int64_t part = in_sixteenths % 16;
  std::string out = tenths_mm < 0 && in_sixteenths > 0 ? "-" : "";
  if (whole_feet > 0) out += fmt::format("{} ft", whole_feet);
  if (whole_inches == 0 && part == 0) return whole_feet > 0 ? out : "0 in";
  if (whole_feet > 0) out += " ";
  if (whole_inches > 0 || part == 0) out += fmt::format("{}", whole_inches);
  if (part > 0) out += (whole_inches > 0 ? " " : "") + sixteenths(part);
  return out + " in";
}

}  // namespace

Flow flow_from_m3_per_s(double q) { return {static_cast<std::int64_t>(std::llround(q * 3600.0 * 1e12))}; }

std::string to_text(Length value, UnitSystem units) {
  if (units == UnitSystem::us) return feet_and_inches(value.tenths_mm);
  const bool short_one = std::abs(value.tenths_mm) < metres(1).tenths_mm;
  if (short_one) return trimmed_zeros(fixed_text({value.tenths_mm, 100}, 1)) + " cm";
  return trimmed_zeros(fixed_text({value.tenths_mm, 10'000}, 2)) + " m";
}

std::string to_text(Diameter value, UnitSystem units) {
  if (units == UnitSystem::us) return fixed_text({value.tenths_um, 254'000}, 3) + " in";
  return fixed_text({value.tenths_um, 10'000}, 1) + " mm";
}

std::string to_text(Flow value, UnitSystem units) {
  return sensible(value.nl_per_h, *find_unit(flow_units(), units == UnitSystem::us ? "gph" : "l/h"), 1);
}

std::string to_text(Pressure value, UnitSystem units) {
  return sensible(value.pa, *find_unit(pressure_units(), units == UnitSystem::us ? "psi" : "bar"), 1);
}

std::string to_text(Volume value, UnitSystem units) {
  return sensible(value.ul, *find_unit(volume_units(), units == UnitSystem::us ? "gal" : "l"), 1);
}

}  // namespace teetally
