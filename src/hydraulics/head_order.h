#pragma once
// What backflow preventers may not be used for, as a table with the source of each line, and the warnings that follow
// for a garden. Local rules come before all of this: ask the water supplier.
#include <string>
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

struct DeviceLimits {
  std::string type;              // as the vocabulary's backflow preventers have it
  bool valve_may_follow = true;  // a valve after it leaves it under pressure for longer than it may be
  Length least_above;            // of the device above the highest outlet; zero: no such rule was found
  Length most_below;             // of the device below the highest outlet; zero: no such rule was found
  bool for_chemicals = false;    // fertiliser or other injection behind it
  std::string source;
};
const std::vector<DeviceLimits>& device_limits();

// The backflow preventer the site has; empty when it has none.
std::string existing_breaker(const Garden& garden);

// The device is taken to sit at the tap. Without one on the site, a hose connection vacuum breaker is taken, and
// only heights are checked: what is still to be bought can be chosen to suit.
void check_head_order(const Garden& garden, UnitSystem units, Diagnostics& diagnostics);

}  // namespace teetally::hydraulics
