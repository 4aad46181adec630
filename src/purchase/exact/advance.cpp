// How the states of a group move on by what a pack or a bundle part brings.
#include <algorithm>

#include "purchase/exact/group.h"

namespace teetally {
namespace {

// Every way to share `units` among the demands in `dims` that wastes none while any of them is open.
void share_out(const NeedGroup& group, unsigned dims, std::size_t dim, std::int64_t state, std::int64_t rest,
               std::int64_t stride, std::vector<std::int64_t>& next) {
  if (dim == group.needs.size()) {
    if (rest == 0) next.push_back(state);
    return;
  }
  const std::int64_t wide = group.demand[dim] + 1;
  const std::int64_t open = group.demand[dim] - state / stride % wide;
  const std::int64_t most = (dims >> dim & 1) ? std::min(open, rest) : 0;
  for (std::int64_t give = 0; give <= most; ++give) {
    share_out(group, dims, dim + 1, state + give * stride, rest - give, stride * wide, next);
  }
}

std::int64_t open_units(const NeedGroup& group, unsigned dims, std::int64_t state) {
  std::int64_t open = 0, stride = 1;
  for (std::size_t d = 0; d < group.needs.size(); ++d) {
    const std::int64_t wide = group.demand[d] + 1;
    if (dims >> d & 1) open += group.demand[d] - state / stride % wide;
    stride *= wide;
  }
  return open;
}

}  // namespace

std::int64_t GroupChain::counted_up(const Brings& brings, std::int64_t times, std::int64_t state) const {
  const NeedGroup& group = *group_;
  std::int64_t stride = 1;
  for (std::size_t d = 0; d < group.demand.size(); ++d) {
    const std::int64_t wide = group.demand[d] + 1;
    if (d >= group.needs.size()) {
      const std::int64_t open = group.demand[d] - state / stride % wide;
      state += stride * std::min(open, times * brings.counted[d - group.needs.size()]);
    }
    stride *= wide;
  }
  return state;
}

void GroupChain::advance(std::int64_t state, const Brings& brings, std::int64_t times,
                         std::vector<std::int64_t>& next) const {
  next.clear();
  const std::int64_t units = brings.units * times;
  if (plain()) {
    next.push_back(std::min(full(), state + units));
    return;
  }
  if (in_rows()) {
    const std::int64_t along = state % row_length();
    next.push_back(counted_up(brings, times, state - along) + std::min(row_length() - 1, along + units));
    return;
  }
  if (group_->demand.size() > group_->needs.size()) state = counted_up(brings, times, state);
  share_out(*group_, brings.dims, 0, state, std::min(units, open_units(*group_, brings.dims, state)), 1, next);
}

bool GroupChain::is_enough(const Brings& brings, std::int64_t times) const {
  return brings.units * times > full() &&
         std::all_of(brings.counted.begin(), brings.counted.end(),
                     [&](std::int64_t each) { return each == 0 || each * times > full(); });
}

}  // namespace teetally
