#include "purchase/exact/wide_search.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "purchase/exact/wide_soft.h"

namespace teetally {
namespace {

constexpr int kFirstSweeps = 60, kSoftPasses = 50, kSoftSweeps = 60, kLaterSweeps = 2;
constexpr double kSoftness = 450;              // parts of the gap: about as far as weights can tell costs apart
constexpr std::int64_t kShakesEach = 250'000;  // of each column that is shaken
constexpr std::int64_t kMostNodes = 60;
constexpr double kWarm = 16, kCool = 65;  // parts of the gap
constexpr double kSure = 10;              // parts of the gap that make a count sure of itself
constexpr double kCoolness = 50;          // parts of the gap that make a count half-hearted

struct Split {
  int column = -1;
  std::size_t at = 0;  // the first value of the upper part
  double spread = 0;
};

class Search {
 public:
  Search(const WideTask& task, double reach, const Propose& propose, TimeLimit limit)
      : task_(task), bound_(task.model), reach_(reach), propose_(propose), limit_(limit) {}

  WideAnswer run() {
    const auto none = [](const std::vector<int>& range) { return range.empty(); };
    if (std::any_of(task_.ranges.begin(), task_.ranges.end(), none)) return {reach_ + 1, 0};
    WideNode node = bound_.first_node(task_.ranges, task_.unit_worth);
    if (begin(node)) leave_open(std::move(node));
    WideAnswer answer;
    while (!open_.empty() && nodes_ < kMostNodes && !limit_.over()) {
      auto first = open_.extract(open_.begin());
      if (first.key() <= reach_) branch(first.mapped());
    }
    answer.bound = std::min(reach_ + 1, closed_);
    if (!open_.empty()) answer.bound = std::min(answer.bound, open_.begin()->first);
    answer.nodes = nodes_;
    return answer;
  }

 private:
  // The first node and a first good plan: each makes room for the other. False when nothing within reach is left.
  bool begin(WideNode& node) {
    if (!settle(node, kFirstSweeps) || !soften_and_settle(node)) return false;
    if (!task_.all_plain) return true;
    shake(node);
    return soften_and_settle(node);
  }

  // The same, of another split of costs if that does better.
  bool soften_and_settle(WideNode& node) {
    WideNode other = node;
    const double warmth = (reach_ - node.bound) / kSoftness;
    if (warmth <= 0 || !soften(task_.model, other, task_.unit_worth, warmth, kSoftPasses, limit_)) return true;
    other.bound = -kNever;
    if (!settle(other, kSoftSweeps)) return false;
    if (other.bound <= node.bound) return bound_.sweep(node, true, reach_);
    node = std::move(other);
    return true;
  }

  // Sweeps while that pays. False when nothing within reach is left.
  bool settle(WideNode& node, int sweeps) {
    double last = node.bound;
    for (int i = 0; i < sweeps && !limit_.over(); ++i) {
      if (!bound_.sweep(node, i % 2 == 0, reach_)) return false;
      propose(node.liked);
      if (i % 10 != 9) continue;
      if (node.bound - last < 0.01 * (reach_ - node.bound)) break;
      last = node.bound;
    }
    return true;
  }

  // Only columns that are not sure of their counts are shaken; the others, mostly not taken at all, would waste shakes.
  void shake(const WideNode& node) {
    const double gap = reach_ - node.bound;
    Domains ranges;
    std::int64_t shaken = 0;
    for (std::size_t c = 0; c < node.counts.size(); ++c) {
      if (is_sure(bound_.least_by_count()[c], gap / kSure)) {
        ranges.push_back({node.liked[c]});
      } else {
        ranges.push_back(node.counts[c]);
        ++shaken;
      }
    }
    propose(anneal_wide(task_.model, ranges, node.liked, gap / kWarm, gap / kCool, kShakesEach * shaken));
  }

  // Every count but the cheapest costs that much more.
  static bool is_sure(Table sum, double more) {
    if (sum.size() < 2) return true;
    std::partial_sort(sum.begin(), sum.begin() + 2, sum.end());
    return sum[1] - sum[0] > more;
  }

  void propose(const std::vector<int>& counts) {
    const double cost = bound_.cost(counts);
    if (cost >= best_cost_) return;
    best_cost_ = cost;
    if (cost <= reach_) reach_ = std::min(reach_, propose_(counts));
  }

  // Of a node that was just swept; counts that are all settled are as good as they get.
  void leave_open(WideNode node) {
    const Split split = best_split(node);
    if (split.column < 0) {
      closed_ = std::min(closed_, node.bound);
      return;
    }
    const double bound = node.bound;
    open_.emplace(bound, Open{std::move(node), split});
  }

  // As in Bound::splits: the spread of the counts that cost about the same.
  Split split_of(int column, const std::vector<int>& counts, const Table& sum) const {
    const double warmth = std::max((reach_ - *std::min_element(sum.begin(), sum.end())) / kCoolness, 1.0);
    const double least = *std::min_element(sum.begin(), sum.end());
    double weight = 0, mean = 0, square = 0;
    for (std::size_t a = 0; a < sum.size(); ++a) {
      const double w = std::exp((least - sum[a]) / warmth), value = counts[a];
      weight += w;
      mean += w * value;
      square += w * value * value;
    }
    mean /= weight;
    const auto upper = std::upper_bound(counts.begin(), counts.end(), static_cast<int>(std::floor(mean)));
    const auto at =
        std::clamp<std::ptrdiff_t>(upper - counts.begin(), 1, static_cast<std::ptrdiff_t>(counts.size()) - 1);
    return {column, static_cast<std::size_t>(at), square / weight - mean * mean};
  }

  // The most undecided column; none (-1) when all are settled.
  Split best_split(const WideNode& node) const {
    Split best;
    for (std::size_t c = 0; c < node.counts.size(); ++c) {
      const Table& sum = bound_.least_by_count()[c];
      if (node.counts[c].size() < 2) continue;
      if (sum.size() != node.counts[c].size()) {  // it stands in no group
        if (best.column < 0) best = {static_cast<int>(c), 1, -1};
        continue;
      }
      const Split split = split_of(static_cast<int>(c), node.counts[c], sum);
      if (best.column < 0 || split.spread > best.spread) best = split;
    }
    return best;
  }

  struct Open {
    WideNode node;
    Split split;
  };

  void branch(const Open& open) {
    ++nodes_;
    const auto& [column, at, spread] = open.split;
    for (const bool low : {true, false}) {
      WideNode side = open.node;
      std::vector<bool> keep(side.counts[column].size());
      for (std::size_t a = 0; a < keep.size(); ++a) keep[a] = (a < at) == low;
      WideBound::keep(side, column, keep);
      bool within = true;
      for (int i = 0; i < kLaterSweeps && within; ++i) within = bound_.sweep(side, i % 2 == 1, reach_);
      if (!within) continue;
      propose(side.liked);
      leave_open(std::move(side));
    }
  }

  const WideTask& task_;
  WideBound bound_;
  double reach_;
  const Propose& propose_;
  TimeLimit limit_;
  std::multimap<double, Open> open_;  // by bound
  double best_cost_ = kNever;
  double closed_ = kNever;  // least bound of counts that are settled, and still within reach
  std::int64_t nodes_ = 0;
};

}  // namespace

WideAnswer search_wide(const WideTask& task, double reach, const Propose& propose, TimeLimit limit) {
  return Search(task, reach, propose, limit).run();
}

}  // namespace teetally
