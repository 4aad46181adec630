#pragma once
// A Site as a person measured it: lines, beds, containers, tape rows, sprays and zones, each with its place.
// Anchors ("12 ft along trunk") are still words here; the garden stage resolves them into positions.
#include "teetally/design.h"

namespace teetally {

struct Site {
  std::string name;
  SiteSource source;
  std::vector<OwnedPart> existing;
};

}  // namespace teetally
