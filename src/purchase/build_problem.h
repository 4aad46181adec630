#pragma once
// An OfferBook and the user's limits become a PurchaseProblem. Suppliers that the limits exclude are left out;
// every other pack and bundle of every catalog is in, also of items that serve no need: they may be the
// cheapest filler.
#include "purchase/problem.h"
#include "teetally/purchase.h"

namespace teetally {

PurchaseProblem build_problem(const OfferBook& book, const BuyLimits& limits);

// A catalog that asks for no money at all (parts on hand): it is no supplier to be counted, avoided or left
// out by "only".
bool is_free(const Catalog& catalog);

}  // namespace teetally
