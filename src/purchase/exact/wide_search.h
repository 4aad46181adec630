#pragma once
// A search over bundle counts for large orders, best bound first, on the wide model (exact/wide.h): what it leaves open
// is a true bound, and what it finds are counts that the model thinks cheap.
#include <functional>
#include <vector>

#include "purchase/exact/wide.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

struct WideAnswer {
  double bound = 0;  // no plan within the reach that was given costs less; scaled
  std::int64_t nodes = 0;
};
// `propose` is told of counts that seem cheaper than all before, and answers what a better plan may come to at most.
using Propose = std::function<double(const std::vector<int>& counts)>;
WideAnswer search_wide(const WideTask& task, double reach, const Propose& propose, TimeLimit limit);

// Counts within the ranges that cost little, from those given: simulated annealing.
std::vector<int> anneal_wide(const WideModel& model, const Domains& ranges, std::vector<int> counts, double warm,
                             double cool, std::int64_t shakes);

}  // namespace teetally
