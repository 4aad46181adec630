#pragma once
// Another way to split the cost of columns among groups. Sweeps (exact/wide_bound.h) stop where no single column can
// raise the bound, which is short of what all splits together reach: a least cost has corners to be stuck in. Here
// least costs are softened to -T ln sum exp(-cost / T), which has none, so that even shares lead to the best split
// there is for them; with a small T it is near the best split for the bound.
#include "purchase/exact/wide_bound.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

// Splits the cost of the node's columns anew, in so many passes at most; `warmth` is T, `unit_worth` by group. What
// comes out is a proposal: whole steps that sum to each column's cost, so any sweep makes a true bound of it. False,
// and the node as it was, where costs are too far apart for such sums: a few hundred times T is the most there is room
// for.
bool soften(const WideModel& model, WideNode& node, const Table& unit_worth, double warmth, int passes,
            TimeLimit limit);

}  // namespace teetally
