#include "purchase/exact/loops.h"

#include <algorithm>
#include <cstring>

#include "purchase/exact/model.h"

// Written so that the compiler can use wide registers.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define TEETALLY_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define TEETALLY_WIDE
#endif

namespace teetally {
namespace {

using Four = double __attribute__((vector_size(32)));

// Four of `least` against four sums.
[[gnu::always_inline]] inline void lower(Four& least, const double* a, const double* b) {
  Four x, y;
  std::memcpy(&x, a, sizeof x);
  std::memcpy(&y, b, sizeof y);
  const Four sum = x + y;
  least = sum < least ? sum : least;
}

[[gnu::always_inline]] inline void add_products(Four& sums, const double* a, const double* b) {
  Four x, y;
  std::memcpy(&x, a, sizeof x);
  std::memcpy(&y, b, sizeof y);
  sums += x * y;
}

}  // namespace

TEETALLY_WIDE void lower_to(const double* in, double* out, std::size_t count, double cost) {
  for (std::size_t n = 0; n < count; ++n) {
    const double v = in[n] + cost;
    out[n] = v < out[n] ? v : out[n];
  }
}

// Four sums at once, and four such minima, so that they do not wait for one another. Said outright: left to itself the
// compiler takes one sum at a time. A minimum of doubles does not depend on the order.
TEETALLY_WIDE double least_sum(const double* a, const double* b, std::size_t count) {
  Four least[4];
  for (Four& part : least) part = Four{kNever, kNever, kNever, kNever};
  std::size_t n = 0;
  for (; n + 16 <= count; n += 16) {
    for (std::size_t i = 0; i < 4; ++i) lower(least[i], a + n + 4 * i, b + n + 4 * i);
  }
  for (; n + 4 <= count; n += 4) lower(least[0], a + n, b + n);
  double result = kNever;
  for (; n < count; ++n) result = std::min(result, a[n] + b[n]);
  for (const Four& part : least) {
    for (std::size_t i = 0; i < 4; ++i) result = std::min(result, part[i]);
  }
  return result;
}

TEETALLY_WIDE void add_times(const double* in, double* out, std::size_t count, double factor) {
  for (std::size_t n = 0; n < count; ++n) out[n] += in[n] * factor;
}

TEETALLY_WIDE double sum_of_products(const double* a, const double* b, std::size_t count) {
  Four sums[4] = {};
  std::size_t n = 0;
  for (; n + 16 <= count; n += 16) {
    for (std::size_t i = 0; i < 4; ++i) add_products(sums[i], a + n + 4 * i, b + n + 4 * i);
  }
  for (; n + 4 <= count; n += 4) add_products(sums[0], a + n, b + n);
  double result = 0;
  for (; n < count; ++n) result += a[n] * b[n];
  for (const Four& part : sums) {
    for (std::size_t i = 0; i < 4; ++i) result += part[i];
  }
  return result;
}

}  // namespace teetally
