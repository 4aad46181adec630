#pragma once
// Covering an amount by whole packs, any number of each: what it costs at least.
#include <cstdint>
#include <vector>

namespace teetally {

struct CoverItem {
  std::int64_t content = 0;
  double price = 0;  // not negative
};
// The least price of items that hold `amount` together, less what rounding can have added; infinite when there are no
// items. Exact for amounts of up to some hundred thousand steps, and for larger ones where the pack with the least
// price for its content makes up most; else as if packs could be divided.
double least_cover(std::vector<CoverItem> items, std::int64_t amount);

}  // namespace teetally
