#pragma once
// The joint at one node: which fittings the legs that meet there ask for, and whether tubing runs through uncut.
#include <optional>
#include <utility>
#include <vector>

#include "teetally/garden.h"

namespace teetally::garden {

struct NodeJoint {
  std::vector<Fitting> fittings;
  std::optional<std::pair<int, int>> through;  // two legs that are one uncut length here
  int meeting = 0;  // lengths that a fitting must join, small tubing through the wall not counted
};

NodeJoint joint_at(const Garden& garden, const Practice& practice, int node, const std::vector<int>& legs,
                   bool is_source);

}  // namespace teetally::garden
