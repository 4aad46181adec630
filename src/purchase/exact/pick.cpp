#include "purchase/exact/pick.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "purchase/exact/contest.h"

namespace teetally {
namespace {

constexpr std::array<std::size_t, 3> kLimits{1'000, 20'000, 300'000};  // labels of a layer, by effort
constexpr int kClimbs = 60;

struct Label {
  WatchedGoods goods{};
  double linear = 0;
  std::int64_t other = 0, tie = 0;
  double bound = 0;
  int parent = -1, way = -1;
};

class Picker {
 public:
  Picker(const SettledCounts& settled, const std::vector<Part>& parts, const Worth& best)
      : settled_(settled), parts_(parts), contest_(settled), start_(settled_start(settled)) {
    picked_.worth = best;
    for (int s : settled.watched) {
      need_.push_back(static_cast<double>(settled.states[s].from));
      rates_[need_.size() - 1] = settled.states[s].rate;
    }
    for (const Part& part : parts) {
      open_.emplace_back(part.ways.size());
      std::iota(open_.back().begin(), open_.back().end(), 0);
    }
  }

  Picked run(Effort effort) {
    for (const std::vector<int>& ways : open_) {
      if (ways.empty()) picked_.complete = true;
    }
    climb();
    for (std::size_t limit : kLimits) {
      if (picked_.complete || limit > kLimits.at(static_cast<std::size_t>(effort)) || !narrow()) break;
      picked_.complete = go_through(limit);
    }
    return picked_;
  }

 private:
  // In minor units: what a better order may cost at most. Nothing ranks below a tie of zero.
  double reach() const { return static_cast<double>(picked_.worth.cost - (picked_.worth.tie > 0 ? 0 : 1)) + kDust; }

  double value_of(const PartWay& way, const Prices& prices) const {
    double value = way.linear;
    for (std::size_t z = 0; z < need_.size(); ++z) value -= prices[z] * static_cast<double>(way.goods[z]);
    return value;
  }

  struct Look {
    double bound = 0;
    Table least;       // by part
    Prices missing{};  // goods to the threshold
    std::vector<int> liked;
  };

  Look look(const Prices& prices) const {
    Look seen;
    seen.bound = value_of(start_, prices);
    for (std::size_t z = 0; z < need_.size(); ++z) {
      seen.bound += prices[z] * need_[z];
      seen.missing[z] = need_[z] - static_cast<double>(start_.goods[z]);
    }
    for (std::size_t k = 0; k < open_.size(); ++k) {
      int liked = -1;
      double least = kNever;
      for (int i : open_[k]) {
        const double value = value_of(parts_[k].ways[i], prices);
        if (value < least) least = value, liked = i;
      }
      seen.bound += least;
      seen.least.push_back(least);
      seen.liked.push_back(liked);
      for (std::size_t z = 0; z < need_.size(); ++z) {
        seen.missing[z] -= static_cast<double>(parts_[k].ways[liked].goods[z]);
      }
    }
    return seen;
  }

  // Prices that make the bound high (Polyak's steps). Those on the way are kept too: each is a view of its own on what
  // a label may still cost.
  void climb() {
    if (picked_.complete) return;
    Prices prices{};
    for (std::size_t z = 0; z < need_.size(); ++z) prices[z] = settled_.pressure[settled_.watched[z]];
    views_ = {prices, Prices{}, rates_};
    picked_.prices = prices;
    double best = -kNever, boldness = 1;
    for (int i = 0; i < kClimbs; ++i) {
      const Look seen = look(prices);
      consider(seen.liked);
      if (seen.bound > best) {
        best = seen.bound;
        picked_.prices = prices;
        if (i % 8 == 7) views_.push_back(prices);
      } else {
        boldness *= 0.8;
      }
      if (best > reach()) break;
      double length = 0;
      Prices slope = seen.missing;
      for (std::size_t z = 0; z < need_.size(); ++z) {
        if (prices[z] <= 0) slope[z] = std::max(0.0, slope[z]);
        length += slope[z] * slope[z];
      }
      if (length == 0) break;
      const double gap = std::max(1.0, std::min(reach(), best * 1.05 + 100) - seen.bound);
      for (std::size_t z = 0; z < need_.size(); ++z) {
        prices[z] = std::clamp(prices[z] + boldness * gap / length * slope[z], 0.0, rates_[z]);
      }
    }
    views_.push_back(picked_.prices);
  }

  // Drops ways that cannot be part of anything cheaper; false when that leaves nothing, which closes the question.
  bool narrow() {
    for (const Prices& prices : views_) {
      const Look seen = look(prices);
      if (seen.bound > reach()) picked_.complete = true;
      for (std::size_t k = 0; k < open_.size() && !picked_.complete; ++k) {
        const double room = reach() - seen.bound + seen.least[k];
        std::erase_if(open_[k], [&](int i) { return value_of(parts_[k].ways[i], prices) > room; });
        picked_.complete = open_[k].empty();
      }
      if (picked_.complete) return false;
    }
    return true;
  }

  void consider(const std::vector<int>& ways) {
    Worth worth{start_.other, start_.tie};
    WatchedGoods goods = start_.goods;
    for (std::size_t k = 0; k < ways.size(); ++k) {
      const PartWay& way = parts_[k].ways[ways[k]];
      worth.cost += way.other;
      worth.tie += way.tie;
      for (std::size_t z = 0; z < need_.size(); ++z) goods[z] += way.goods[z];
    }
    for (std::size_t z = 0; z < need_.size() && worth.cost <= picked_.worth.cost; ++z) {
      const auto order = cost_of_order(settled_.model->problem->suppliers[settled_.watched[z]], goods[z]);
      worth.cost = order ? worth.cost + *order : kMostGoods;
    }
    if (worth >= picked_.worth) return;
    picked_.worth = worth;
    picked_.ways = ways;
  }

  // The part whose open ways differ most in what they spend comes first, so that the last ones can settle small change.
  std::vector<int> order_of_parts() const {
    std::vector<double> spread;
    for (std::size_t k = 0; k < open_.size(); ++k) {
      double sum = 0;
      for (std::size_t z = 0; z < need_.size(); ++z) {
        const auto [low, high] = std::minmax_element(open_[k].begin(), open_[k].end(), [&](int a, int b) {
          return parts_[k].ways[a].goods[z] < parts_[k].ways[b].goods[z];
        });
        sum += static_cast<double>(parts_[k].ways[*high].goods[z] - parts_[k].ways[*low].goods[z]);
      }
      spread.push_back(open_[k].size() < 2 ? kNever : sum);
    }
    std::vector<int> order(open_.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return spread[a] > spread[b]; });
    return order;
  }

  // For each view and each number of parts gone through: the least that the others add.
  std::vector<Table> least_to_come(const std::vector<int>& order) const {
    std::vector<Table> result;
    for (const Prices& prices : views_) {
      Table& rest = result.emplace_back(order.size() + 1, 0);
      for (std::size_t z = 0; z < need_.size(); ++z) rest.back() += prices[z] * need_[z];
      for (std::size_t i = order.size(); i-- > 0;) {
        double least = kNever;
        for (int w : open_[order[i]]) least = std::min(least, value_of(parts_[order[i]].ways[w], prices));
        rest[i] = rest[i + 1] + least;
      }
    }
    return result;
  }

  double bound_of(const Label& label, const std::vector<Table>& to_come, std::size_t layer) const {
    double bound = 0;
    for (std::size_t v = 0; v < views_.size(); ++v) {
      double value = label.linear + to_come[v][layer];
      for (std::size_t z = 0; z < need_.size(); ++z) value -= views_[v][z] * static_cast<double>(label.goods[z]);
      bound = std::max(bound, value);
    }
    return bound;
  }

  // False when a layer had to be cut down to the limit.
  bool go_through(std::size_t limit) {
    const std::vector<int> order = order_of_parts();
    const std::vector<Table> to_come = least_to_come(order);
    Label first;
    first.goods = start_.goods;
    first.linear = start_.linear;
    first.other = start_.other;
    first.tie = start_.tie;
    std::vector<Label> labels{first}, next;
    History history;
    bool whole = true;
    for (std::size_t layer = 0; layer < order.size(); ++layer) {
      next.clear();
      for (std::size_t i = 0; i < labels.size(); ++i) {
        if (i % 256 == 0 && settled_.limit.over()) return false;
        for (int w : open_[order[layer]]) {
          Label label = labels[i];
          add(label, parts_[order[layer]].ways[w]);
          label.bound = bound_of(label, to_come, layer + 1);
          if (label.bound > reach()) continue;
          label.parent = static_cast<int>(i);
          label.way = w;
          next.push_back(label);
        }
        if (next.size() > 4 * limit) whole = thin(next, limit) && whole;
      }
      whole = thin(next, limit) && whole;
      std::vector<std::array<int, 2>>& steps = history.emplace_back();
      for (const Label& label : next) steps.push_back({label.parent, label.way});
      labels.swap(next);
    }
    for (std::size_t i = 0; i < labels.size(); ++i) consider(trace(history, order, static_cast<int>(i)));
    return whole;
  }

  using History = std::vector<std::vector<std::array<int, 2>>>;  // by layer, by label: parent, way

  bool thin(std::vector<Label>& labels, std::size_t limit) const {
    contest_.keep_best(labels);
    if (labels.size() <= limit) return true;
    const auto end = labels.begin() + static_cast<std::ptrdiff_t>(limit);
    std::nth_element(labels.begin(), end, labels.end(), [](const Label& a, const Label& b) {
      return a.bound != b.bound ? a.bound < b.bound : a.goods < b.goods;
    });
    labels.resize(limit);
    return false;
  }

  void add(Label& label, const PartWay& way) const {
    for (std::size_t z = 0; z < need_.size(); ++z) label.goods[z] += way.goods[z];
    label.linear += way.linear;
    label.other += way.other;
    label.tie += way.tie;
  }

  std::vector<int> trace(const History& history, const std::vector<int>& order, int index) const {
    std::vector<int> ways(order.size(), -1);
    for (std::size_t layer = order.size(); layer-- > 0;) {
      const auto& [parent, way] = history[layer][index];
      ways[order[layer]] = way;
      index = parent;
    }
    return ways;
  }

  const SettledCounts& settled_;
  const std::vector<Part>& parts_;
  Contest contest_;
  PartWay start_;
  std::vector<double> need_;
  Prices rates_{};
  std::vector<Prices> views_;
  std::vector<std::vector<int>> open_;  // by part
  Picked picked_;
};

}  // namespace

Picked pick_ways(const SettledCounts& settled, const std::vector<Part>& parts, const Worth& best, Effort effort) {
  return Picker(settled, parts, best).run(effort);
}

}  // namespace teetally
