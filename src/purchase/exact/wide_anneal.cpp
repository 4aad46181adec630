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
    for (const WideGroup& group : model.groups) covered_.push_back({group.end.data(), group.full});
    for (std::size_t c = 0; c < counts.size(); ++c) {
      const auto& range = ranges[c];
      const auto near = std::lower_bound(range.begin(), range.end(), counts[c]);
      at_[c] = static_cast<int>(
          std::min<std::ptrdiff_t>(near - range.begin(), static_cast<std::ptrdiff_t>(range.size()) - 1));
      counts_[c] = range[at_[c]];
      for (const auto& [g, t] : model.sits[c]) {
        bring_[c].push_back({g, model.groups[g].columns[t].units});
        covered_[g].units += bring_[c].back().units * counts_[c];
      }
    }
    for (Covered& group : covered_) group.cost = group.cost_of(group.units);
  }

  const std::vector<int>& counts() const { return counts_; }

  bool may(int column, int by) const {
    const int to = at_[column] + by;
    return to >= 0 && to < static_cast<int>(ranges_[column].size());
  }

  // What one or two steps (the second's column may be -1) would change.
  double weigh(int first, int first_by, int second, int second_by) {
    ++now_;
    touched_.clear();
    double change = step(first, first_by);
    if (second >= 0) change += step(second, second_by);
    for (const int g : touched_) {
      Covered& group = covered_[g];
      group.cost_then = group.cost_of(group.units_then);
      change += group.cost_then - group.cost;
    }
    return change;
  }

  // Takes the steps that were weighed last.
  void take(int first, int first_by, int second, int second_by) {
    move(first, first_by);
    if (second >= 0) move(second, second_by);
    for (const int g : touched_) {
      covered_[g].units = covered_[g].units_then;
      covered_[g].cost = covered_[g].cost_then;
    }
  }

 private:
  // A group as it is, and as it would be after the steps that are weighed.
  struct Covered {
    const double* end = nullptr;
    std::int64_t full = 0, units = 0, units_then = 0;
    double cost = 0, cost_then = 0;
    std::int64_t stamp = 0;

    double cost_of(std::int64_t of) const { return end[std::min(of, full)]; }
  };
  struct Bring {
    int group = -1;
    std::int64_t units = 0;
  };

  double step(int column, int by) {
    const int more = ranges_[column][at_[column] + by] - counts_[column];
    for (const auto& [g, units] : bring_[column]) {
      Covered& group = covered_[g];
      if (group.stamp != now_) {
        group.stamp = now_;
        group.units_then = group.units;
        touched_.push_back(g);
      }
      group.units_then += units * more;
    }
    return model_.price[column] * more;
  }
  void move(int column, int by) {
    at_[column] += by;
    counts_[column] = ranges_[column][at_[column]];
  }

  const WideModel& model_;
  const Domains& ranges_;
  std::vector<int> counts_, at_;
  std::vector<std::vector<Bring>> bring_;  // by column
  std::vector<Covered> covered_;           // by group
  std::vector<int> touched_;               // groups of the steps that are weighed
  std::int64_t now_ = 0;
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
    const double change = shaken.weigh(first, by, second, second_by);
    if (change > 0 && change > -warm * std::log(dice.unit())) continue;
    shaken.take(first, by, second, second_by);
    sum += change;
    if (sum >= best) continue;
    best = sum;
    counts = shaken.counts();
  }
  return counts;
}

}  // namespace teetally
