#pragma once
// What is answered about runs: flow, speed, sizes and why each was chosen.
#include "hydraulics/sizing.h"

namespace teetally::hydraulics {

// `sized` has its garden and its flows by leg.
std::vector<RunHydraulics> run_reports(const SizedGarden& sized, const std::vector<SizeChoice>& choices,
                                       const std::vector<double>& insides);

}  // namespace teetally::hydraulics
