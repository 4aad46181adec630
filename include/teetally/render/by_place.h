#pragma once
// A takeoff by place: what to carry to each bed, line and container of the garden, and what is needed besides (waste,
// spares, tools). The amounts of a part over all places, with what is needed besides, add up to its need.
#include <string>

#include "teetally/needs.h"
#include "teetally/render.h"

namespace teetally {

std::string by_place_text(const Takeoff& takeoff, const Page& page);
Json by_place_document(const Takeoff& takeoff, UnitSystem units);    // "teetally/by-place"
std::string by_place_csv(const Takeoff& takeoff, UnitSystem units);  // a row per part and place

}  // namespace teetally
