#pragma once
// The inner loops of the exact search, over tables of costs, and of weights in their stead.
#include <cstddef>

namespace teetally {

// out = min(out, in + cost), element by element.
void lower_to(const double* in, double* out, std::size_t count, double cost);
// min over n of a[n] + b[n]; kNever when there is none.
double least_sum(const double* a, const double* b, std::size_t count);
// out = out + in * factor, element by element.
void add_times(const double* in, double* out, std::size_t count, double factor);
// sum over n of a[n] * b[n]
double sum_of_products(const double* a, const double* b, std::size_t count);

}  // namespace teetally
