#pragma once
// Where the tubing of a garden starts: each start gets a head assembly of its own, serving one zone or several
// that share their first tubing.
#include <vector>

#include "needs/worksheet.h"

namespace teetally {

struct HeadStart {
  std::vector<int> zones;  // indices into Garden::zones
  int node = -1;
  int leg = -1;       // the first tubing after the head
  std::string where;  // "at the tap", "at the tap, zone 'pots'"
};
std::vector<HeadStart> find_heads(const Worksheet& sheet);

}  // namespace teetally
