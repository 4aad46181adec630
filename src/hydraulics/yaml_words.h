#pragma once
// Values as a design or practice file writes them, exactly: reading them back gives the same value.
#include <string>

#include "teetally/design.h"

namespace teetally::hydraulics {

std::string yaml_name(const std::string& name);  // quoted where a bare word would mean something else
std::string exact(Length value, UnitSystem units);
std::string exact(Flow value, UnitSystem units);
std::string exact(Pressure value, UnitSystem units);
std::string exact(const Point& at, UnitSystem units);  // "[8 ft, 4 ft]", with the height where it is not zero

// "emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}": all that the practice does not say anyway.
std::string drip_tubing_line(const DripTubing& tubing, const Practice& practice, UnitSystem units);

}  // namespace teetally::hydraulics
