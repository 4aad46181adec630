#pragma once
// Quantities with units: what a person writes ("5 ft 6 in", "0.6 in", "0.5 gph", "25 psi", "5 gal") and what
// the program computes with. Lengths, diameters and rated flows are exact integers, so that feet and metres
// never drift and equal things compare equal; computed flows and pressures are doubles in SI inside the
// hydraulics stage only. Unit factors: NIST SP 811 (2008), appendix B.8, the exact ones.
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace teetally {

// Whole tenths of a millimetre: 1 in = 254, 1 ft = 3,048, 1 m = 10,000.
struct Length {
  std::int64_t tenths_mm = 0;
  auto operator<=>(const Length&) const = default;
};
constexpr Length operator+(Length a, Length b) { return {a.tenths_mm + b.tenths_mm}; }
constexpr Length operator-(Length a, Length b) { return {a.tenths_mm - b.tenths_mm}; }
constexpr Length operator-(Length a) { return {-a.tenths_mm}; }
constexpr Length operator*(Length a, std::int64_t n) { return {a.tenths_mm * n}; }
constexpr Length& operator+=(Length& a, Length b) {
  a.tenths_mm += b.tenths_mm;
  return a;
}
constexpr Length feet(std::int64_t n) { return {n * 3048}; }
constexpr Length inches(std::int64_t n) { return {n * 254}; }
constexpr Length metres(std::int64_t n) { return {n * 10000}; }
constexpr double in_metres(Length a) { return static_cast<double>(a.tenths_mm) / 10000.0; }

// Wall and bore sizes, whole tenths of a micrometre: 0.001 in = 254, 1 mm = 10,000.
struct Diameter {
  std::int64_t tenths_um = 0;
  auto operator<=>(const Diameter&) const = default;
};
constexpr double in_metres(Diameter a) { return static_cast<double>(a.tenths_um) / 1e7; }

// A rated or measured flow, whole nanolitres per hour: 1 gph (US) = 3,785,411,784; 1 l/h = 1,000,000,000.
struct Flow {
  std::int64_t nl_per_h = 0;
  auto operator<=>(const Flow&) const = default;
};
constexpr double in_m3_per_s(Flow f) { return static_cast<double>(f.nl_per_h) / 1e12 / 3600.0; }
Flow flow_from_m3_per_s(double q);  // rounds to the nearest nl/h

// A rated or measured pressure, whole pascals: 1 psi = 6,895 (6,894.757 rounded), 1 bar = 100,000.
struct Pressure {
  std::int64_t pa = 0;
  auto operator<=>(const Pressure&) const = default;
};

// A volume, whole microlitres: 1 gal (US) = 3,785,411,784 nl, so 3,785,412 ul; 1 l = 1,000,000.
struct Volume {
  std::int64_t ul = 0;
  auto operator<=>(const Volume&) const = default;
};

// What a bare number in a file means; an empty entry makes a bare number an error.
struct BareUnits {
  std::string length;    // "ft", "in", "m", "cm", "mm"
  std::string flow;      // "gph", "gpm", "l/h", "l/min"
  std::string pressure;  // "psi", "bar", "kPa"
  std::string volume;    // "gal", "l"
};

// Each parser answers the value or a text that says what was found, what was expected, and an example.
// Lengths accept sums and fractions: "5 ft 6 in", "5' 6 1/2\"", "1/2 in", "9.1 m", "-3 in".
tl::expected<Length, std::string> parse_length(std::string_view text, const BareUnits& bare);
tl::expected<Diameter, std::string> parse_diameter(std::string_view text, const BareUnits& bare);
tl::expected<Flow, std::string> parse_flow(std::string_view text, const BareUnits& bare);
tl::expected<Pressure, std::string> parse_pressure(std::string_view text, const BareUnits& bare);
tl::expected<Volume, std::string> parse_volume(std::string_view text, const BareUnits& bare);
// Decimal digits only; no signs but '-', no octal, no hexadecimal, no exponents.
tl::expected<std::int64_t, std::string> parse_count(std::string_view text);
// A plain decimal number ("0.85", "-3.5"); no exponents, no infinities.
tl::expected<double, std::string> parse_number(std::string_view text);

enum class UnitSystem { us, metric };
std::string to_text(Length value, UnitSystem units);    // "5 ft 6 1/2 in" (to the nearest 1/16) or "1.69 m"
std::string to_text(Diameter value, UnitSystem units);  // "0.600 in" or "15.2 mm"
std::string to_text(Flow value, UnitSystem units);      // "0.5 gph" or "1.9 l/h"
std::string to_text(Pressure value, UnitSystem units);  // "25 psi" or "1.7 bar"
std::string to_text(Volume value, UnitSystem units);    // "5 gal" or "18.9 l"

}  // namespace teetally
