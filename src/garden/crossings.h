#pragma once
// Tubing that crosses or touches other tubing without a joint: allowed, but the person should know.
#include "teetally/garden.h"

namespace teetally::garden {

// One warning for each pair of runs, at the later one's place; the first hundred of them.
void report_crossings(const Garden& garden, const Practice& practice, Diagnostics& diagnostics);

}  // namespace teetally::garden
