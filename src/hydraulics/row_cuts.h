#pragma once
// Beds and tape rows cut in two across their rows.
#include <string>
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

Point moved(Point at, Side side, Length by);
std::string free_name(const std::string& name, const Site& site);  // for the far half
void join_zone_of(Site& site, const std::string& name, const std::string& added);

// `bed`, which has a header, becomes its near half and keeps its name; the answer is its far half. Both keep their
// header on the same side.
Bed cut(Bed& bed);

// "zones:" with a line for each zone, as a design has it.
std::string zones_text(const std::vector<SiteZone>& zones);

}  // namespace teetally::hydraulics
