#pragma once
// The end of the exact search: bundle counts and supplier states are settled, and only loose packs, parts left
// out and filler remain. Every way within reach of the best plan is enumerated by what it spends at each
// supplier where a threshold or a rounding matters; ways that spend the same there are told apart by cost alone.
// So a threshold just missed, an order lifted over it by a dearer pack, and taxes that round are all exact.
#include <optional>
#include <vector>

#include "purchase/exact/pick.h"
#include "purchase/plan.h"

namespace teetally {

struct Finished {
  bool complete = true;      // false: too many ways, some were not looked at
  std::optional<Plan> plan;  // better than `best`
  Worth worth;
};
// `values`: one by variable (counts, then states). `pressure` as in the node; any gives the same answer, a good
// one gives it sooner.
Finished finish(const ExactModel& model, const std::vector<int>& values, const Table& pressure, Worth best,
                Effort effort, TimeLimit limit);

}  // namespace teetally
