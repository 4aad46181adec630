// Pressures for settled suppliers: the linear relaxation of sharing out the lines, by Newton steps on a bound whose
// minima are softened less and less (smoothing: Nesterov, Math. Programming 103, 2005). Any pressures give a true
// bound, so nothing rests on how near these come.
#include <algorithm>
#include <cmath>

#include "purchase/exact/lines_list.h"

namespace teetally {
namespace {

constexpr double kSoftest = 2, kHardest = 0.001, kHarder = 0.4;  // minor units
constexpr int kStepsEach = 6;
constexpr double kTooFar = 30;  // softened minima see nothing so many times as far away

struct Choice {
  int at = -1;  // index into the suppliers with a threshold; -1: none
  double price = 0, cost = 0;
};

class Softened {
 public:
  Softened(const LineList& list, const LineNode& node) : list_(list), lines_(list.lines) {
    for (int s = 0; s < static_cast<int>(list.options.size()); ++s) {
      const int k = settled_state(list, node, s);
      if (k < 0) continue;
      const LineState& state = list.states[k];
      const double rate = state.rate / kLineSteps;
      fixed_ += state.fixed / kLineSteps;
      const int at = state.from > 0 ? static_cast<int>(state_.size()) : -1;
      if (at >= 0) {
        state_.push_back(k);
        pressure_.push_back(rate - node.priced[k] / kLineSteps);
      }
      for (const LineOption& option : list.cheapest[s]) {
        lines_[option.line].push_back({at, option.price, option.price * rate});
      }
    }
  }

  // A softened bound lies below the bound, so one above `enough` ends it.
  double harden(double enough) {
    double reached = -kNever;
    for (double soft = kSoftest; soft > kHardest && reached <= enough; soft *= kHarder) reached = climb(soft);
    return reached;
  }

  void tell(LineNode& node) const {
    for (std::size_t i = 0; i < state_.size(); ++i) {
      const double rate = list_.states[state_[i]].rate;
      node.priced[state_[i]] = std::clamp(std::floor(rate - pressure_[i] * kLineSteps + 0.5), 0.0, rate);
    }
  }

 private:
  using Row = std::vector<double>;

  // The softened bound, its slope and its curvature (of the opposite sign).
  double look(double soft, const Row& pressure, Row& slope, std::vector<Row>& curve) const {
    double total = fixed_;
    for (std::size_t i = 0; i < state_.size(); ++i) {
      slope[i] = list_.states[state_[i]].from;
      total += pressure[i] * slope[i];
      std::fill(curve[i].begin(), curve[i].end(), 0);
    }
    Row cost;
    std::vector<std::pair<int, double>> weighed;  // supplier, price times weight
    for (const std::vector<Choice>& choices : lines_) {
      cost.clear();
      for (const Choice& c : choices) cost.push_back(c.cost - (c.at >= 0 ? c.price * pressure[c.at] : 0));
      const double least = *std::min_element(cost.begin(), cost.end());
      double sum = 0;
      for (double& c : cost) {
        c = c - least > kTooFar * soft ? 0 : std::exp((least - c) / soft);
        sum += c;
      }
      total += least - soft * std::log(sum);
      weighed.clear();
      for (std::size_t i = 0; i < choices.size(); ++i) {
        if (cost[i] <= 0 || choices[i].at < 0) continue;
        weighed.emplace_back(choices[i].at, choices[i].price * cost[i] / sum);
        curve[choices[i].at][choices[i].at] += choices[i].price * weighed.back().second / soft;
      }
      for (const auto& [at, goods] : weighed) {
        slope[at] -= goods;
        for (const auto& [other, others] : weighed) curve[at][other] -= goods * others / soft;
      }
    }
    return total;
  }

  double climb(double soft) {
    const std::size_t n = state_.size();
    Row slope(n), next_slope(n);
    std::vector<Row> curve(n, Row(n)), next_curve(n, Row(n));
    double value = look(soft, pressure_, slope, curve), caution = 1e-3;
    for (int step = 0; step < kStepsEach; ++step) {
      Row next = stepped(slope, curve, caution);
      const double found = look(soft, next, next_slope, next_curve);
      if (found > value) {
        value = found, caution /= 5;
        pressure_.swap(next), slope.swap(next_slope), curve.swap(next_curve);
      } else {
        caution *= 20;
      }
    }
    return value;
  }

  // The pressures after one Newton step on those that may move, by elimination; none becomes negative.
  Row stepped(const Row& slope, std::vector<Row> curve, double caution) const {
    const std::size_t n = slope.size();
    Row right = slope;
    for (std::size_t i = 0; i < n; ++i) {
      if (pressure_[i] <= 0 && slope[i] <= 0) {
        for (std::size_t j = 0; j < n; ++j) curve[i][j] = curve[j][i] = 0;
        right[i] = 0;
      }
      curve[i][i] = curve[i][i] * (1 + caution) + 1;
    }
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = i + 1; j < n; ++j) {
        const double times = curve[j][i] / curve[i][i];
        if (times == 0) continue;
        for (std::size_t k = i; k < n; ++k) curve[j][k] -= times * curve[i][k];
        right[j] -= times * right[i];
      }
    }
    Row next = pressure_;
    for (std::size_t i = n; i-- > 0;) {
      for (std::size_t k = i + 1; k < n; ++k) right[i] -= curve[i][k] * right[k];
      right[i] /= curve[i][i];
      next[i] = std::max(0.0, next[i] + right[i]);
    }
    return next;
  }

  const LineList& list_;
  std::vector<std::vector<Choice>> lines_;
  std::vector<int> state_;  // settled, with a threshold
  double fixed_ = 0;
  Row pressure_;  // by position in state_
};

bool all_served(const LineList& list, const LineNode& node) {
  std::vector<bool> served(list.lines, false);
  for (int s = 0; s < static_cast<int>(list.options.size()); ++s) {
    if (settled_state(list, node, s) < 0) continue;
    for (const LineOption& option : list.cheapest[s]) served[option.line] = true;
  }
  return std::all_of(served.begin(), served.end(), [](bool is) { return is; });
}

}  // namespace

double press(const LineList& list, LineNode& node, double enough) {
  if (!all_served(list, node)) return kNever;
  Softened softened(list, node);
  const double bound = softened.harden(enough / kLineSteps) * kLineSteps;
  softened.tell(node);
  return bound;
}

}  // namespace teetally
