#pragma once
// Whether the ends of a fitting grip the tubing that could be bought, and under which choice of fit families.
#include "teetally/offers.h"

namespace teetally {

bool accepts(const Grip& grip, const FitFamily& family);
// The grip of one end: a single grip stands for all ends alike.
const Grip& grip_at(const Item& item, std::size_t end);

// Every way the item can be put in place of the need: for each, what it demands of the families. One empty way
// when nothing is demanded; no way when the item fits nothing on offer. `ends` are the kind's ends.
using Way = std::vector<FitCondition>;
std::vector<Way> ways_to_fit(const Need& need, const Item& item, const std::vector<std::string>& ends,
                             const std::vector<SystemFamilies>& systems);

// Why there is no way: "grips 0.520 in inside; the 1/2 in tubing on offer has 0.600 in or 0.615 in".
std::string why_no_fit(const Need& need, const Item& item, const Takeoff& takeoff,
                       const std::vector<SystemFamilies>& systems, UnitSystem units);

}  // namespace teetally
