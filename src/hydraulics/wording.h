#pragma once
// Computed figures in the words of messages: rounded, with the unit the reader chose.
#include <string>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

std::string flow_text(double m3_per_s, UnitSystem units);     // "21.5 gph" or "81.4 l/h"
std::string pressure_text(double pa, UnitSystem units);       // "24.3 psi" or "1.68 bar"
std::string velocity_text(double m_per_s, UnitSystem units);  // "5.2 ft/s" or "1.6 m/s"
std::string number_text(double value);                        // three figures, without a unit
std::string percent_text(double part);                        // 0.064 is "6 %"

}  // namespace teetally::hydraulics
