#pragma once
// What can be wrong with a garden as a water system, in sentences; nothing is changed.
#include "hydraulics/zone_flow.h"

namespace teetally::hydraulics {

// Before anything is computed: pressures and flows at the tap that cannot be.
void check_source(const Garden& garden, const Settings& settings, UnitSystem units, Diagnostics& diagnostics);
// Zones that tubing joins behind their valves.
void check_zones_apart(const Garden& garden, Diagnostics& diagnostics);
// After a zone is solved: outlets that no water can reach.
void check_zone(const Garden& garden, int zone, const ZoneFlow& flow, const Settings& settings, UnitSystem units,
                Diagnostics& diagnostics);

}  // namespace teetally::hydraulics
