#pragma once
// Changes to a garden that might make a zone work: each as words, as edits to the design or practice file, and as the
// site that results, so that it can be laid out and solved before anybody is told.
#include <optional>
#include <string>
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

struct Change {
  std::string words;
  std::vector<Edit> edits;
  Site site;
  std::optional<Pressure> regulator;  // instead of the practice's, for drip and tape
  bool splits = false;                // into more zones
};

// All changes that can be made to the zone of that name, the cheapest-looking first. `sized` is `site` sized.
std::vector<Change> changes_for(const Site& site, const SizedGarden& sized, int zone, const Practice& practice,
                                UnitSystem units);

// The zone's elements in `parts` groups of nearly equal rated flow, as a change; nothing when there are fewer elements.
// `zone` counts in Site::zones, or is 0 when there are none.
std::optional<Change> split_zone(const Site& site, const Garden& garden, int zone, int parts);

inline constexpr int kMostParts = 6;

}  // namespace teetally::hydraulics
