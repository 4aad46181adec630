#pragma once
// Which pressure the regulator of a zone should hold. The practice says it: drip 25 psi, tape 10 psi as shipped. Where
// the shipped figure lies outside what the zone's outlets are made for, the class nearest to it that suits them is
// taken instead; a figure that a person wrote is kept, and the verdict says what is wrong with it.
#include <string>

#include "hydraulics/settings.h"

namespace teetally::hydraulics {

struct RegulatorChoice {
  double head = 0;                       // m
  double usual = 0;                      // m, by the practice
  double low = 0, high = 0;              // m, range that all outlets allow; zero: none stated
  double rated_low = 0, rated_high = 0;  // m, at which outlets state their flow
  std::string words(const Settings& settings, UnitSystem units) const;
};
RegulatorChoice regulator_for(const Garden& garden, int zone, bool tape, const Settings& settings);

}  // namespace teetally::hydraulics
