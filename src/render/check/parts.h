#pragma once
// Parts of what `check` prints.
#include <string>

#include "teetally/render.h"

namespace teetally {

std::string zone_section(const CheckView& view, const ZoneHydraulics& zone, const Page& page);
std::string advice_section(const std::vector<Advice>& advice, const Page& page);
std::string velocity_phrase(double m_per_s, UnitSystem units);
std::string share_phrase(double part);            // "23 %"
std::string edit_place_phrase(const Edit& edit);  // "garden.yaml, line 24: bed 'greens'"

}  // namespace teetally
