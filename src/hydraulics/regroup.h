#pragma once
// Elements of a zone into balanced groups, to be watered one after another.
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

// The elements of a zone that give water, in `parts` groups of nearly equal rated flow: the largest first, each into
// the group that has least. Fewer groups when there are fewer elements.
std::vector<std::vector<int>> balanced_groups(const Garden& garden, int zone, int parts);

}  // namespace teetally::hydraulics
