#pragma once
// Long lists of single lines at many suppliers: every need is met by one lot of any of its offers, nothing is bundled,
// and only the suppliers' terms couple the lines. There the bound is a Lagrangian one (a worth for each line, a
// pressure for each threshold: Geoffrion, Math. Prog. Study 2, 1974; raised by subgradient steps with Polyak's length),
// and the search decides which suppliers are used and in which bracket. What is left then is which line goes where, so
// that thresholds are met: looked for within a budget above the bound that grows cent by cent until something is found.
#include <cstdint>
#include <optional>

#include "purchase/exact/filler.h"
#include "purchase/exact/model.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

// Whether a model is such a list.
bool is_line_list(const ExactModel& model);

struct LinesAnswer {
  std::optional<Plan> plan;  // cheaper than `best`
  std::int64_t cost = 0;
  double open_bound = kNever;  // scaled: no plan cheaper than this was left out
  std::int64_t nodes = 0;
};
// The cheapest plan of a line list, if it costs less than `best`.
LinesAnswer solve_lines(const ExactModel& model, Filler& filler, std::int64_t best, TimeLimit limit);

}  // namespace teetally
