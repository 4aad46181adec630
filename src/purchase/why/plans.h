#pragma once
// The cheapest orders that are really different (see Comparison::plans): a best-first search over what is done
// without. Whatever differs from an order found does without one of its suppliers or bundles; so each of these in
// turn is taken off the market.
#include "purchase/why/answers.h"

namespace teetally {

struct DifferentPlans {
  std::vector<Purchase> plans;
  PlansEnd end = PlansEnd::enough;
};
DifferentPlans different_plans(Answers& answers, int most);

}  // namespace teetally
