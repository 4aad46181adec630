// How the states of a group move on by what a pack or a bundle part brings.
#include <algorithm>
#include <array>

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

// What of something goes to the needs but the first, in every way that wastes none while any need that it may go to is
// open in the whole row; the rest goes along the row.
class RowSharing {
 public:
  RowSharing(const NeedGroup& group, unsigned dims, std::int64_t row, std::vector<RowMove>& moves) : moves_(&moves) {
    open_after_[0] = (dims & 1U) != 0 ? group.demand[0] : 0;
    std::int64_t stride = 1;
    for (std::size_t d = 0; d < group.needs.size(); ++d) {
      const std::int64_t wide = group.demand[d] + 1;
      if (d > 0 && (dims >> d & 1U) != 0) {
        open_[dims_] = group.demand[d] - row / stride % wide;
        open_after_[dims_ + 1] = open_after_[dims_] + open_[dims_];
        stride_[dims_++] = stride;
      }
      stride *= wide;
    }
  }
  void share(std::int64_t units, std::int64_t to) { share(dims_, std::min(units, open_after_[dims_]), to); }

 private:
  void share(std::size_t left, std::int64_t rest, std::int64_t to) {
    if (left == 0) {
      moves_->push_back({to, rest});
      return;
    }
    const std::size_t d = left - 1;
    const std::int64_t least = std::max<std::int64_t>(0, rest - open_after_[d]), most = std::min(open_[d], rest);
    for (std::int64_t give = least; give <= most; ++give) share(d, rest - give, to + give * stride_[d]);
  }

  std::size_t dims_ = 0;
  std::array<std::int64_t, kMostSharing> open_{}, stride_{};
  std::array<std::int64_t, kMostSharing + 1> open_after_{};
  std::vector<RowMove>* moves_;
};

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

void GroupChain::row_moves(std::int64_t row, const Brings& brings, std::int64_t times,
                           std::vector<RowMove>& moves) const {
  moves.clear();
  const std::int64_t to = counted_up(brings, times, row), units = brings.units * times;
  if (group_->needs.size() == 1) {
    moves.push_back({to, std::min(units, row_length() - 1)});
    return;
  }
  RowSharing(*group_, brings.dims, row, moves).share(units, to);
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
