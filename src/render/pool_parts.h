#pragma once
// Plain sums of a pool's figures that its outputs share.
#include <cmath>

#include "teetally/render/pool.h"

namespace teetally {

std::int64_t size_of(const auto& list) { return static_cast<std::int64_t>(list.size()); }

inline double percent_of(Money part, Money whole) {
  return whole.minor == 0 ? 0 : 100.0 * static_cast<double>(part.minor) / static_cast<double>(whole.minor);
}

bool all_known_alone(const PoolResult& result);
Money alone_in_all(const PoolResult& result);  // plots and shared parts, each bought alone

}  // namespace teetally
