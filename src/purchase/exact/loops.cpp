#include "purchase/exact/loops.h"

#include <algorithm>

#include "purchase/exact/model.h"

// Written so that the compiler can use wide registers.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define TEETALLY_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define TEETALLY_WIDE
#endif

namespace teetally {

TEETALLY_WIDE void lower_to(const double* in, double* out, std::size_t count, double cost) {
  for (std::size_t n = 0; n < count; ++n) {
    const double v = in[n] + cost;
    out[n] = v < out[n] ? v : out[n];
  }
}

// Eight partial minima, so that they do not wait for one another.
TEETALLY_WIDE double least_sum(const double* a, const double* b, std::size_t count) {
  double least[8] = {kNever, kNever, kNever, kNever, kNever, kNever, kNever, kNever};
  std::size_t n = 0;
  for (; n + 8 <= count; n += 8) {
    for (std::size_t i = 0; i < 8; ++i) {
      const double v = a[n + i] + b[n + i];
      least[i] = v < least[i] ? v : least[i];
    }
  }
  for (; n < count; ++n) least[0] = std::min(least[0], a[n] + b[n]);
  return *std::min_element(least, least + 8);
}

}  // namespace teetally
