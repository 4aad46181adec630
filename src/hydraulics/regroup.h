#pragma once
// Changes of shape: elements into balanced groups, a header fed from its middle, rows cut in half.
#include <vector>

#include "teetally/hydraulics.h"

namespace teetally::hydraulics {

// The elements of a zone that give water, in `parts` groups of nearly equal rated flow: the largest first, each into
// the group that has least. Fewer groups when there are fewer elements.
std::vector<std::vector<int>> balanced_groups(const Garden& garden, int zone, int parts);

// Moves the feed of a header of at least two legs from its end to the node nearest its middle; the feeding leg becomes
// longer by the way there. False when the run has no such header.
bool feed_header_from_middle(Garden& garden, int run);

// A row of emitters becomes two of half its length, both from where it started.
void halve_row(Garden& garden, int run);

}  // namespace teetally::hydraulics
