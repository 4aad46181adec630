#pragma once
// Orders that are known already as plans of another problem over the same catalogs: prices, needs and what is on sale
// may differ, so a plan that comes of it is only believed after rank() accepts it.
#include <optional>

#include "purchase/plan.h"
#include "teetally/purchase.h"

namespace teetally {

// Nothing where the order has something that is not on sale here.
std::optional<Plan> plan_of(const PurchaseProblem& problem, const Purchase& purchase);
// A plan that keeps the rules, made cheaper as long as one step does so: one lot or bundle fewer, or a part of a bundle
// changed or left as it comes.
Plan trimmed(const PurchaseProblem& problem, Plan plan);

}  // namespace teetally
