#pragma once
// Needs that share products, without sharing anything out. What is bought serves them all when, whatever set of the
// needs is looked at, what serves any of it amounts to all that it asks for (P. Hall, On representatives of subsets,
// J. London Math. Soc. 10:26-30, 1935; for amounts, D. Gale, A theorem on flows in networks, Pacific J. Math.
// 7:1073-1082, 1957). Each such set is a sum over packs and bundle parts that must be reached, as a cut rule is.
#include <cstdint>
#include <vector>

#include "purchase/problem.h"

namespace teetally {

struct SharedNeeds {
  std::int64_t unit = 1;    // divides whatever serves the group
  std::int64_t total = 0;   // of all the needs, in units
  std::vector<Reach> sums;  // of the other sets, in units; those that follow from others are left out
  std::int64_t states = 0;  // product of (total + 1) and (least + 1)
};

// `demands`: amounts by dimension, not more than eight. `dims_of`: by product, a bit for each dimension that it
// serves; zero outside the group.
SharedNeeds share_needs(const PurchaseProblem& problem, const std::vector<std::int64_t>& demands,
                        const std::vector<unsigned>& dims_of);

}  // namespace teetally
