#pragma once
// Which zone every element runs in, and the zone valves that part zones fed from one line. A line that no zone
// lists belongs to what hangs on it; one that several zones hang on is shared and counts as the first of them.
#include "garden/network.h"

namespace teetally::garden {

void assign_zones(const Site& site, Garden& garden, int source, const Practice& practice, Diagnostics& diagnostics);

// The first leg of a run, seen from the source, on which a device finds room; -1 when there is none.
int leg_for_device(const Garden& garden, int run, const Reach& reach, Length least);

}  // namespace teetally::garden
