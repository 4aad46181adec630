#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>

#include "teetally/base/words.h"

namespace teetally {
namespace {

constexpr Fraction whole(std::int64_t n) { return {n, 1}; }

// NIST SP 811 (2008), appendix B.8: inch 25.4 mm, foot 0.3048 m, yard 0.9144 m, US gallon 3.785 411 784 l and
// pound-force 4.448 221 615 260 5 N are exact; one psi is one pound-force on a square of 0.0254 m.
constexpr Unit kLengths[] = {{"ft", "foot|feet|'|′|’", whole(3048)},
                             {"in", "inch|inches|\"|″|”|''", whole(254)},
                             {"yd", "yard|yards", whole(9144)},
                             {"m", "metre|metres|meter|meters", whole(10'000)},
                             {"cm", "centimetre|centimetres|centimeter|centimeters", whole(100)},
                             {"mm", "millimetre|millimetres|millimeter|millimeters", whole(10)}};

constexpr Unit kDiameters[] = {{"in", "inch|inches|\"|″|”|''", whole(254'000)},
                               {"mm", "millimetre|millimetres|millimeter|millimeters", whole(10'000)},
                               {"cm", "centimetre|centimetres|centimeter|centimeters", whole(100'000)}};

constexpr std::int64_t kGallon = 3'785'411'784;  // nanolitres

constexpr Unit kFlows[] = {{"gph", "gal/h|gal/hr|gallons/hour|gallons per hour|gallon per hour", whole(kGallon)},
                           {"gpm", "gal/min|gallons/minute|gallons per minute|gallon per minute", whole(kGallon * 60)},
                           {"l/h", "lph|l/hr|litres per hour|liters per hour|litre per hour", whole(1'000'000'000)},
                           {"l/min", "lpm|litres per minute|liters per minute|litre per minute", whole(60'000'000'000)},
                           {"l/s", "litres per second|liters per second", whole(3'600'000'000'000)},
                           {"ml/min", "", whole(60'000'000)},
                           {"m3/h", "m³/h", whole(1'000'000'000'000)}};

constexpr Unit kPressures[] = {{"psi", "lb/in2|lbf/in2", {44'482'216'152'605, 6'451'600'000}},
                               {"bar", "bars", whole(100'000)},
                               {"kPa", "", whole(1000)},
                               {"mbar", "", whole(100)},
                               {"Pa", "", whole(1)}};

constexpr Unit kVolumes[] = {{"gal", "gals|gallon|gallons", {kGallon, 1000}},
                             {"l", "litre|litres|liter|liters", whole(1'000'000)},
                             {"qt", "quart|quarts", {kGallon, 4000}},
                             {"ml", "millilitre|millilitres|milliliter|milliliters", whole(1000)}};

// 100 km, 100 m, 100 000 000 l/h, 1000 bar, 1 000 000 m3: past any garden, and sums of millions of them still fit.
constexpr UnitTable kLengthTable{"length", "a length", "5 ft 6 in", 1'000'000'000, kLengths};
constexpr UnitTable kDiameterTable{"diameter", "a diameter", "0.6 in", 1'000'000'000, kDiameters};
constexpr UnitTable kFlowTable{"flow", "a flow", "0.5 gph", 100'000'000'000'000'000, kFlows};
constexpr UnitTable kPressureTable{"pressure", "a pressure", "25 psi", 100'000'000, kPressures};
constexpr UnitTable kVolumeTable{"volume", "a volume", "5 gal", 1'000'000'000'000'000, kVolumes};

bool same_word(std::string_view a, std::string_view b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [&](char x, char y) { return lower(x) == lower(y); });
}

std::vector<std::string> spellings(const Unit& unit) {
  std::vector<std::string> out{std::string(unit.name)};
  std::string_view rest = unit.other;
  while (!rest.empty()) {
    const std::size_t bar = rest.find('|');
    out.emplace_back(rest.substr(0, bar));
    rest = bar == std::string_view::npos ? std::string_view() : rest.substr(bar + 1);
  }
  return out;
}

}  // namespace

const UnitTable& length_units() { return kLengthTable; }
const UnitTable& diameter_units() { return kDiameterTable; }
const UnitTable& flow_units() { return kFlowTable; }
const UnitTable& pressure_units() { return kPressureTable; }
const UnitTable& volume_units() { return kVolumeTable; }

const Unit* find_unit(const UnitTable& table, std::string_view spelling) {
  for (const Unit& unit : table.units) {
    for (const std::string& known : spellings(unit)) {
      if (same_word(known, spelling)) return &unit;
    }
  }
  return nullptr;
}

std::vector<std::string> unit_names(const UnitTable& table) {
  std::vector<std::string> names;
  for (const Unit& unit : table.units) names.emplace_back(unit.name);
  return names;
}

std::string unknown_unit(const UnitTable& table, std::string_view spelling) {
  std::vector<std::string> known;
  for (const Unit& unit : table.units) {
    for (std::string& word : spellings(unit)) known.push_back(std::move(word));
  }
  const auto near = nearest_word(spelling, known);
  const std::string hint = near ? fmt::format("did you mean {}? ", quoted(*near)) : std::string();
  return fmt::format("unknown {} unit {}; {}known units: {}", table.quantity, quoted(spelling), hint,
                     listed(unit_names(table)));
}

}  // namespace teetally
