#pragma once
// The steps of a walk from an order line back to a line of the design, gathered for text, JSON and CSV.
#include <string>
#include <vector>

#include "teetally/render.h"

namespace teetally {

struct BoughtAs {
  int catalog = -1;
  const OrderLine* line = nullptr;
};
// The order lines that bring the items which supply the need.
std::vector<BoughtAs> bought_for(const WalkView& view, int need);

struct MissedItem {
  const Catalog* catalog = nullptr;
  const Item* item = nullptr;
};
MissedItem missed_item(const OfferBook& book, const NearMiss& miss);

// The line a place is on, without leading blanks, safe for a terminal.
std::string shown_line(const Place& place);

}  // namespace teetally
