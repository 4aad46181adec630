#pragma once
// Whether a zone works, in words: every reason it is tight or will not work, the worst first, each with both
// figures that were compared.
#include "hydraulics/zone_flow.h"

namespace teetally::hydraulics {

// Fills verdict and words of `zone` from its own figures and the zone's flow.
void judge(ZoneHydraulics& zone, const ZoneFlow& flow, const Garden& garden, const Settings& settings,
           UnitSystem units);

int rank(Verdict verdict);  // works 0, tight 1, unknown 2, will not work 3
// The worse of two: works, tight, unknown, will not work.
Verdict worse(Verdict a, Verdict b);

}  // namespace teetally::hydraulics
