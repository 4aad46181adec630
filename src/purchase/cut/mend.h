#pragma once
// A plan whose coils are long enough in total may still not be cut as the needs ask. More coils mend that: each set of
// needs that share coils gets the cheapest that help it, all sets at once.
#include <optional>

#include "purchase/plan.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

// The plan with more coils, so that every piece can be cut; nullopt when the stock is too small for that, as far as was
// tried. The caller ranks it.
std::optional<Plan> mended(const PurchaseProblem& problem, const Plan& plan, const TimeLimit& limit);

}  // namespace teetally
