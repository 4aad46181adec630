#pragma once
// Chooses nominal sizes for the runs whose size is empty: the smallest that passes both the rule of thumb (longest
// run, largest flow) and the computed check (velocity, evenness, working pressure at the wanted start pressure). A
// run is never smaller than what it feeds. Sizes given by the design are kept.
#include <vector>

#include "hydraulics/flow_paths.h"
#include "hydraulics/settings.h"

namespace teetally::hydraulics {

struct SizeChoice {
  std::string by_rule;         // empty: the rule is off, or no size passes
  std::string by_computation;  // empty: no size passes
  double rated_flow = 0;       // m3/s through the run when every outlet gives its rated flow
  bool sized = false;          // chosen here
};

// Sets sizes on runs and legs; answers one choice per run.
std::vector<SizeChoice> choose_sizes(Garden& garden, const Practice& practice, const Settings& settings,
                                     Diagnostics& diagnostics);

// Sizes of supply tubing that may be chosen for this garden, smallest first.
std::vector<const NominalSize*> sizes_to_choose(const Garden& garden, const Practice& practice);

void set_size(Garden& garden, const FlowPaths& paths, int run, const std::string& size);

}  // namespace teetally::hydraulics
