#pragma once
// Products of prices and amounts that leave 64 bits before they are divided again.
#include <cstdint>
#include <limits>
#include <stdexcept>

namespace teetally {

__extension__ typedef __int128 Wide;

// As sums of money do, leaving the 64-bit range throws std::overflow_error.
inline std::int64_t narrowed(Wide number) {
  if (number > std::numeric_limits<std::int64_t>::max() || number < std::numeric_limits<std::int64_t>::min()) {
    throw std::overflow_error("a figure leaves the 64-bit range");
  }
  return static_cast<std::int64_t>(number);
}

}  // namespace teetally
