#include <algorithm>
#include <cmath>

#include "purchase/exact/wide_search.h"

namespace teetally {
namespace {

// SplitMix64: the same on every machine.
class Dice {
 public:
  std::uint64_t next() {
    std::uint64_t z = state_ += 0x9E3779B97F4A7C15ULL;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
  }
  std::size_t below(std::size_t sides) { return static_cast<std::size_t>((next() >> 32) * sides >> 32); }
  double unit() { return static_cast<double>((next() >> 11) + 1) * 0x1.0p-53; }

 private:
  std::uint64_t state_ = 1;
};

// Counts with what they cover and cost, changed a column or two at a time.
class Shaken {
 public:
  Shaken(const WideModel& model, const Domains& ranges, const std::vector<int>& counts)
      : model_(model), ranges_(ranges), counts_(counts), at_(counts.size(), 0), bring_(counts.size()) {
    covered_.assign(model.groups.size(), 0);
    stamp_.assign(model.groups.size(), 0);
    for (std::size_t c = 0; c < counts.size(); ++c) {
      const auto& range = ranges[c];
      const auto near = std::lower_bound(range.begin(), range.end(), counts[c]);
      at_[c] = static_cast<int>(
          std::min<std::ptrdiff_t>(near - range.begin(), static_cast<std::ptrdiff_t>(range.size()) - 1));
      counts_[c] = range[at_[c]];
      for (const auto& [g, t] : model.sits[c]) {
        bring_[c].push_back({g, model.groups[g].columns[t].units});
        covered_[g] += bring_[c].back()[1] * counts_[c];
      }
    }
    for (std::size_t g = 0; g < covered_.size(); ++g) cost_.push_back(cost_of(g));
  }

  const std::vector<int>& counts() const { return counts_; }

  bool may(int column, int by) const {
    const int to = at_[column] + by;
    return to >= 0 && to < static_cast<int>(ranges_[column].size());
  }

  // Takes one or two steps (the second's column may be -1) and answers what they change.
  double take(int first, int first_by, int second, int second_by) {
    double change = shift(first, first_by);
    if (second >= 0) change += shift(second, second_by);
    ++now_;
    change += settle(first);
    if (second >= 0) change += settle(second);
    return change;
  }

 private:
  double cost_of(std::size_t g) const {
    const WideGroup& group = model_.groups[g];
    return group.end[std::min(covered_[g], group.full)];
  }
  double shift(int column, int by) {
    at_[column] += by;
    const int more = ranges_[column][at_[column]] - counts_[column];
    counts_[column] += more;
    for (const auto& [g, units] : bring_[column]) covered_[g] += units * more;
    return model_.price[column] * more;
  }
  double settle(int column) {
    double change = 0;
    for (const auto& [g, units] : bring_[column]) {
      if (stamp_[g] == now_) continue;
      stamp_[g] = now_;
      const double after = cost_of(g);
      change += after - cost_[g];
      cost_[g] = after;
    }
    return change;
  }

  const WideModel& model_;
  const Domains& ranges_;
  std::vector<int> counts_, at_;
  std::vector<std::vector<std::array<std::int64_t, 2>>> bring_;  // by column: group, units
  std::vector<std::int64_t> covered_, stamp_;                    // by group
  std::int64_t now_ = 0;
  Table cost_;  // by group
};

}  // namespace

// Kirkpatrick, Gelatt and Vecchi, Science 220, 1983: one bundle more or fewer, or two columns at once, mostly one for
// another; a dearer change is taken with a chance that falls as it cools. The best counts met are kept.
std::vector<int> anneal_wide(const WideModel& model, const Domains& ranges, std::vector<int> counts, double warm,
                             double cool, std::int64_t shakes) {
  Shaken shaken(model, ranges, counts);
  counts = shaken.counts();
  std::vector<int> open;
  for (std::size_t c = 0; c < ranges.size(); ++c) {
    if (ranges[c].size() > 1) open.push_back(static_cast<int>(c));
  }
  Dice dice;
  const double cooling = std::pow(cool / warm, 1 / static_cast<double>(shakes));
  double sum = 0, best = 0;
  for (std::int64_t i = 0; i < shakes && !open.empty(); ++i, warm *= cooling) {
    const int by = dice.below(2) == 0 ? 1 : -1, first = open[dice.below(open.size())];
    int second = -1, second_by = 0;
    if (dice.below(2) == 0) {
      second = open[dice.below(open.size())];
      second_by = dice.below(4) == 0 ? by : -by;
    }
    if (second == first || !shaken.may(first, by) || (second >= 0 && !shaken.may(second, second_by))) continue;
    const double change = shaken.take(first, by, second, second_by);
    if (change > 0 && change > -warm * std::log(dice.unit())) {
      shaken.take(first, -by, second, -second_by);
      continue;
    }
    sum += change;
    if (sum >= best) continue;
    best = sum;
    counts = shaken.counts();
  }
  return counts;
}

}  // namespace teetally
