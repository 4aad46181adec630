#pragma once
// Everything that can be wrong between the elements of a Site: names used twice, names nobody has, lines that
// start from one another in a circle, elements in no zone or in two.
#include "teetally/design.h"

namespace teetally::design {

// Also settles what a bare name in an anchor means: a point, the tap, or the nearest point of a line.
void settle_names(Site& site, Diagnostics& diagnostics);

}  // namespace teetally::design
