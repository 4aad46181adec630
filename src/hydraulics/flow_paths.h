#pragma once
// Which way water goes through a garden's runs: legs in downstream order, which run feeds which, and how far the
// farthest end of one size lies.
#include <string>
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

struct FlowPaths {
  std::vector<int> legs_downstream;  // every leg after all legs that feed its start
  std::vector<std::vector<int>> legs_of_run;
  std::vector<int> feeder_of_run;  // the run it leaves; -1 at the head
  std::vector<int> runs_upstream;  // every run after all runs that it feeds
};
FlowPaths flow_paths(const Garden& garden);

// From the run's start along legs of the run's own size, as sizes stand now.
Length farthest(const Garden& garden, const FlowPaths& paths, int run);

}  // namespace teetally::hydraulics
