#pragma once
// The way water takes from the head to the outlet that fares worst, with the pressure at every node of the garden
// it passes: what a gauge would show if carried along.
#include "hydraulics/zone_flow.h"

namespace teetally::hydraulics {

// The outlet that gets the least part of its rated flow; of equals, the one with the least pressure. -1: no outlets.
int worst_outlet(const ZoneFlow& flow);

std::vector<PathPoint> worst_path(const Garden& garden, const ZoneFlow& flow, const Settings& settings);

}  // namespace teetally::hydraulics
