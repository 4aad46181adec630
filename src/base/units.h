#pragma once
// The units people write and what one of each is in the unit a quantity is kept in, as exact fractions.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/decimal.h"

namespace teetally {

struct Unit {
  std::string_view name;   // as printed and as declared in files
  std::string_view other;  // further spellings, separated by '|'
  Fraction size;           // in the unit kept
};

struct UnitTable {
  std::string_view quantity;  // "length", with its article "a length"
  std::string_view article;
  std::string_view example;  // "5 ft 6 in"
  std::int64_t largest;      // in the unit kept; larger values are refused
  std::span<const Unit> units;
};

const UnitTable& length_units();
const UnitTable& diameter_units();
const UnitTable& flow_units();
const UnitTable& pressure_units();
const UnitTable& volume_units();

// By name or another spelling, in any case; nullptr when unknown.
const Unit* find_unit(const UnitTable& table, std::string_view spelling);
// Names only, in table order.
std::vector<std::string> unit_names(const UnitTable& table);
// "unknown flow unit 'gpj'; did you mean 'gph'? Known: gph, gpm, ..."
std::string unknown_unit(const UnitTable& table, std::string_view spelling);

}  // namespace teetally
