#pragma once
// A plan of the abstract problem told in the words of the book: orders with lines and money, what serves what,
// what is left over. Money comes from the catalog's own pricing, not from the plan's.
#include "purchase/solver.h"
#include "teetally/purchase.h"

namespace teetally {

// Fills orders, families, supplies, leftovers, cut list and the total; outcome and proof stay as they are.
void state_plan(const OfferBook& book, const PurchaseProblem& problem, const Solved& solved, Purchase& purchase);
// The cut list and the joins.
void state_cuts(const OfferBook& book, const PurchaseProblem& problem, const Solved& solved, Purchase& purchase);

}  // namespace teetally
