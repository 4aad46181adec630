#pragma once
// One way of every part, so that all thresholds are met at the least cost. The parts are gone through one after the
// other; a label holds what was spent so far. Labels that cannot lead to anything cheaper than the best known plan
// are dropped by a Lagrangian bound on what follows, and labels that others beat in every respect are dropped too.
// When a layer grows beyond a limit only its most promising labels are kept: then a good plan may come out, but no
// proof; more effort raises the limit.
#include <array>
#include <cstdint>
#include <vector>

#include "purchase/exact/ways.h"

namespace teetally {

using Prices = std::array<double, kMostWatched>;  // on goods, by watched supplier

enum class Effort { glance, fair, full };

struct Picked {
  bool complete = false;  // no choice of ways is better than `worth`
  Worth worth;            // of the ways, or the best that was known
  std::vector<int> ways;  // by part; empty when nothing better was found
  Prices prices{};        // at which these ways bound what any choice costs best
};
Picked pick_ways(const SettledCounts& settled, const std::vector<Part>& parts, const Worth& best, Effort effort);

}  // namespace teetally
