#pragma once
// The two inner loops of the exact search, over tables of costs.
#include <cstddef>

namespace teetally {

// out = min(out, in + cost), element by element.
void lower_to(const double* in, double* out, std::size_t count, double cost);
// min over n of a[n] + b[n]; kNever when there is none.
double least_sum(const double* a, const double* b, std::size_t count);

}  // namespace teetally
