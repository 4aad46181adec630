#include "purchase/exact_wide_search.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace teetally {
namespace {

constexpr int kFirstSweeps = 120, kLaterSweeps = 2;
constexpr std::int64_t kShakesEach = 25'000;  // of each column
constexpr std::int64_t kMostNodes = 60;
constexpr double kWarm = 30, kCool = 150;  // parts of the gap
constexpr double kCoolness = 50;           // parts of the gap that make a count half-hearted

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
    if (settle_first(node)) {
      if (task_.all_plain) shake(node);
      leave_open(std::move(node));
    }
    WideAnswer answer;
    while (!open_.empty() && nodes_ < kMostNodes && !limit_.over()) {
      auto first = open_.extract(open_.begin());
      if (first.mapped().bound <= reach_) branch(std::move(first.mapped()));
    }
    answer.bound = std::min(reach_ + 1, closed_);
    if (!open_.empty()) answer.bound = std::min(answer.bound, open_.begin()->first);
    answer.nodes = nodes_;
    return answer;
  }

 private:
  // Sweeps while that pays. False when nothing within reach is left.
  bool settle_first(WideNode& node) {
    double last = node.bound;
    for (int i = 0; i < kFirstSweeps && !limit_.over(); ++i) {
      if (!bound_.sweep(node, i % 2 == 0, reach_)) return false;
      propose(node.liked);
      if (i % 10 != 9) continue;
      if (node.bound - last < 0.01 * (reach_ - node.bound)) break;
      last = node.bound;
    }
    return true;
  }

  void shake(const WideNode& node) {
    const double gap = reach_ - node.bound;
    propose(anneal_wide(task_.model, node.counts, best_.empty() ? node.liked : best_, gap / kWarm, gap / kCool,
                        kShakesEach * static_cast<std::int64_t>(node.counts.size())));
  }

  void propose(const std::vector<int>& counts) {
    const double cost = bound_.cost(counts);
    if (cost >= best_cost_) return;
    best_cost_ = cost;
    best_ = counts;
    if (cost <= reach_) reach_ = std::min(reach_, propose_(counts));
  }

  void leave_open(WideNode node) {
    const double bound = node.bound;
    open_.emplace(bound, std::move(node));
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

  std::vector<Split> splits(const WideNode& node) const {
    std::vector<Split> result;
    for (std::size_t c = 0; c < node.counts.size(); ++c) {
      const Table& sum = bound_.least_by_count()[c];
      if (node.counts[c].size() < 2 || sum.size() != node.counts[c].size()) continue;
      result.push_back(split_of(static_cast<int>(c), node.counts[c], sum));
    }
    std::stable_sort(result.begin(), result.end(), [](const Split& a, const Split& b) { return a.spread > b.spread; });
    return result;
  }

  void branch(WideNode node) {
    ++nodes_;
    if (!bound_.sweep(node, true, reach_)) return;
    const std::vector<Split> all = splits(node);
    if (all.empty()) {
      propose(node.liked);
      if (node.bound <= reach_) closed_ = std::min(closed_, node.bound);
      return;
    }
    for (const bool low : {true, false}) {
      WideNode side = node;
      std::vector<bool> keep(side.counts[all[0].column].size());
      for (std::size_t a = 0; a < keep.size(); ++a) keep[a] = (a < all[0].at) == low;
      WideBound::keep(side, all[0].column, keep);
      bool open = true;
      for (int i = 0; i < kLaterSweeps && open; ++i) open = bound_.sweep(side, i % 2 == 1, reach_);
      if (!open) continue;
      propose(side.liked);
      leave_open(std::move(side));
    }
  }

  const WideTask& task_;
  WideBound bound_;
  double reach_;
  const Propose& propose_;
  TimeLimit limit_;
  std::multimap<double, WideNode> open_;  // by bound
  std::vector<int> best_;
  double best_cost_ = kNever;
  double closed_ = kNever;  // least bound of counts that are settled, and still within reach
  std::int64_t nodes_ = 0;
};

}  // namespace

WideAnswer search_wide(const WideTask& task, double reach, const Propose& propose, TimeLimit limit) {
  return Search(task, reach, propose, limit).run();
}

}  // namespace teetally
