#pragma once
// What is answered about a zone and its rows, from its solved network.
#include "hydraulics/zone_flow.h"

namespace teetally::hydraulics {

ZoneHydraulics zone_report(const Garden& garden, int zone, const ZoneFlow& flow, const std::vector<double>& insides,
                           const Settings& settings, UnitSystem units);

// One for every run of the zone with outlets along it.
std::vector<RowHydraulics> row_reports(const Garden& garden, const ZoneFlow& flow, const std::vector<double>& insides,
                                       const Settings& settings);

}  // namespace teetally::hydraulics
