#pragma once
// Which ends meet what: the joints of the paths of a draft, before there are nodes.
#include <vector>

#include "garden/draft.h"

namespace teetally::garden {

// A path whose points know the joint they belong to; points were added where other ends meet its legs.
struct JointedPath {
  int run = -1;
  int outlet = -1;
  std::vector<Point> at;
  std::vector<int> joint;      // by point
  std::vector<LegRole> roles;  // one fewer than points
  std::vector<Place> places;
  std::vector<Length> along;  // from the path's start, as drawn
};

struct Joints {
  std::vector<JointedPath> paths;
  std::vector<Point> at;  // by joint
  int source = 0;         // the joint of the tap
};

Joints join_paths(const std::vector<Path>& paths, Point source, Length tolerance);

}  // namespace teetally::garden
