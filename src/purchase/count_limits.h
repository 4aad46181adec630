#pragma once
// Safe limits on counts. Buying more than is needed can be cheapest (free shipping, a lower price from some
// count on, an order discount, a minimum order), so a limit must leave room for that filler and still be as
// tight as can be proved. Each limit keeps at least one plan that is best by the whole rank:
//
// Let K be the lots that cover, alone, every need the product can serve, and S the most that filler can save
// at the supplier (most_saved_by_filler), so that taking away unneeded goods worth more than S pays.
//   A. With n > K lots, n - K are unneeded. If their price exceeds S, the plan with K lots is cheaper. Where the
//      supplier has a minimum order, M, take away only down to lots that are worth M by themselves.
//   B. With n > K lots, n also above the last price step, taking one away while the order's goods stay at or
//      above the last threshold L changes no bracket and costs nothing: so the goods are below L + one lot.
// For bundles the same holds with K the sum, over the choices of one part, of the bundles that cover all needs
// of what is chosen: with more bundles some choice of every part is unneeded in at least one of them.
#include "purchase/problem.h"

namespace teetally {

// Lowers `most` (on entry: the stock) of every pack and bundle; removes offers that are never worth buying.
void limit_counts(PurchaseProblem& problem);

}  // namespace teetally
