#include "purchase/exact/wide_soft.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "purchase/exact/loops.h"

namespace teetally {
namespace {

constexpr double kNothing = 1e-280;  // a weight that may as well be none
constexpr double kMostMessage = 0x1p50;

// Weights of what a group's bundles bring: exp(-(cost - offset) / T), the largest 1.
struct Weights {
  std::int64_t low = 0;
  double offset = 0;
  Table table;
};

// Costs are seen beyond the worth of units, so that they do not span more than weights can tell apart: a unit that is
// brought counts as paid with its worth, also where it is one too many.
class Soft {
 public:
  Soft(const WideModel& model, const WideNode& node, const Table& unit_worth, double warmth)
      : model_(model), counts_(node.counts), worth_(unit_worth), warmth_(warmth) {
    for (std::size_t g = 0; g < model.groups.size(); ++g) {
      front_.emplace_back(model.groups[g].columns.size() + 1);
      back_.emplace_back(model.groups[g].columns.size() + 1);
      begin(g);
    }
    messages_ = node.messages;
    shift_messages(-1);
  }

  void pass(bool rising) {
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      const std::size_t columns = model_.groups[g].columns.size();
      for (std::size_t i = 0; i < columns; ++i) {
        if (rising) {
          backward(g, columns - 1 - i);
        } else {
          forward(g, i);
        }
      }
    }
    const std::size_t columns = counts_.size();
    for (std::size_t i = 0; i < columns; ++i) {
      const std::size_t column = rising ? i : columns - 1 - i;
      if (counts_[column].size() > 1) share(column);
      for (const auto& [g, t] : model_.sits[column]) {
        if (rising) {
          forward(g, t);
        } else {
          backward(g, t);
        }
      }
    }
  }

  // In whole steps, the first taking what is left of the column's cost. None when one is out of bounds.
  std::optional<std::vector<std::vector<Table>>> whole_messages() {
    shift_messages(1);
    for (std::size_t c = 0; c < messages_.size(); ++c) {
      for (std::size_t a = 0; a < counts_[c].size() && !messages_[c].empty(); ++a) {
        double left = model_.price[c] * counts_[c][a];
        for (std::size_t k = 1; k < messages_[c].size(); ++k) {
          double& part = messages_[c][k][a];
          if (!(std::abs(part) < kMostMessage)) return std::nullopt;
          part = std::floor(part);
          left -= part;
        }
        messages_[c].front()[a] = left;
      }
    }
    return std::move(messages_);
  }

 private:
  double worth(std::size_t g, std::size_t t) const {
    return worth_[g] * static_cast<double>(model_.groups[g].columns[t].units);
  }

  // From costs to costs beyond worth (-1), or back (1).
  void shift_messages(int sign) {
    for (std::size_t c = 0; c < messages_.size(); ++c) {
      for (std::size_t k = 0; k < messages_[c].size(); ++k) {
        const auto& [g, t] = model_.sits[c][k];
        for (std::size_t a = 0; a < counts_[c].size(); ++a) messages_[c][k][a] += sign * worth(g, t) * counts_[c][a];
      }
    }
  }

  // What bundles can bring so far, and the weights of either end.
  void begin(std::size_t g) {
    const WideGroup& group = model_.groups[g];
    std::int64_t high = 0;
    std::vector<Weights>&front = front_[g], &back = back_[g];
    front.front().table = {1};
    back.front().table = {1};
    for (std::size_t t = 0; t < group.columns.size(); ++t) {
      const WideGroup::Column& column = group.columns[t];
      const std::int64_t low = front[t].low + column.units * counts_[column.column].front();
      high = std::min(group.full, high + column.units * counts_[column.column].back());
      front[t + 1].low = back[t + 1].low = std::min(group.full, low);
      front[t + 1].table.resize(high - front[t + 1].low + 1);
      back[t + 1].table.resize(front[t + 1].table.size());
    }
    Weights& last = back.back();
    for (std::size_t n = 0; n < last.table.size(); ++n) {
      const std::int64_t units = last.low + static_cast<std::int64_t>(n);
      last.table[n] = group.end[units] - worth_[g] * static_cast<double>(group.full - units);
    }
    last.offset = *std::min_element(last.table.begin(), last.table.end());
    for (double& weight : last.table) weight = std::exp((last.offset - weight) / warmth_);
  }

  // The largest weight becomes 1.
  void scale(Weights& weights) const {
    const double most = *std::max_element(weights.table.begin(), weights.table.end());
    if (most <= 0) return;
    for (double& weight : weights.table) {
      weight /= most;
      if (weight < kNothing) weight = 0;  // too small for full speed
    }
    weights.offset -= warmth_ * std::log(most);
  }

  // A count of a column in one of its groups. The first `inside` places of the table before it stay short of the
  // demand, and go to places of the table after it, from `at` on; the others go to its last.
  struct Step {
    double weight = 0;
    std::size_t inside = 0, at = 0;
    double over = 1;  // weight of what the first place that is not inside brings too many
  };
  Step step(std::size_t g, std::size_t t, std::size_t a, double least) const {
    const WideGroup& group = model_.groups[g];
    const WideGroup::Column& column = group.columns[t];
    const Weights& before = front_[g][t];
    const auto size = static_cast<std::int64_t>(before.table.size());
    const std::int64_t shift = before.low + column.units * counts_[column.column][a];
    const std::int64_t inside = std::clamp<std::int64_t>(group.full - shift, 0, size);
    Step step;
    step.inside = static_cast<std::size_t>(inside);
    step.at = static_cast<std::size_t>(std::max<std::int64_t>(shift - front_[g][t + 1].low, 0));
    step.weight = std::exp((least - message(g, t)[a]) / warmth_);
    if (inside < size) step.over = weight_over(g, static_cast<double>(shift + inside - group.full));
    return step;
  }
  double weight_over(std::size_t g, double units) const { return std::exp(-worth_[g] * units / warmth_); }

  const Table& message(std::size_t g, std::size_t t) const {
    const WideGroup::Column& column = model_.groups[g].columns[t];
    return messages_[column.column][column.place];
  }

  void forward(std::size_t g, std::size_t t) {
    const Weights& from = front_[g][t];
    Weights& to = front_[g][t + 1];
    std::fill(to.table.begin(), to.table.end(), 0);
    const double least = least_of(message(g, t)), one = weight_over(g, 1);
    for (std::size_t a = 0; a < message(g, t).size(); ++a) {
      const Step by = step(g, t, a, least);
      if (by.weight < kNothing) continue;
      if (by.inside > 0) add_times(from.table.data(), to.table.data() + by.at, by.inside, by.weight);
      double over = by.over * by.weight, sum = 0;
      for (std::size_t n = by.inside; n < from.table.size() && over > kNothing; ++n, over *= one) {
        sum += from.table[n] * over;
      }
      to.table.back() += sum;
    }
    to.offset = from.offset + least;
    scale(to);
  }

  void backward(std::size_t g, std::size_t t) {
    const Weights& from = back_[g][t + 1];
    Weights& to = back_[g][t];
    std::fill(to.table.begin(), to.table.end(), 0);
    const double least = least_of(message(g, t)), one = weight_over(g, 1);
    for (std::size_t a = 0; a < message(g, t).size(); ++a) {
      const Step by = step(g, t, a, least);
      if (by.weight < kNothing) continue;
      if (by.inside > 0) add_times(from.table.data() + by.at, to.table.data(), by.inside, by.weight);
      double over = by.over * by.weight * from.table.back();
      for (std::size_t n = by.inside; n < to.table.size() && over > kNothing; ++n, over *= one) to.table[n] += over;
    }
    to.offset = from.offset + least;
    scale(to);
  }

  // What each count costs in the group, softly.
  void margins(std::size_t g, std::size_t t, Table& result) const {
    const Weights& before = front_[g][t];
    const Weights& after = back_[g][t + 1];
    const Table& costs = message(g, t);
    const double one = weight_over(g, 1);
    result.clear();
    for (std::size_t a = 0; a < costs.size(); ++a) {
      const Step by = step(g, t, a, costs[a]);
      double sum = by.inside > 0 ? sum_of_products(before.table.data(), after.table.data() + by.at, by.inside) : 0;
      double over = by.over * after.table.back();
      for (std::size_t n = by.inside; n < before.table.size() && over > kNothing; ++n, over *= one) {
        sum += before.table[n] * over;
      }
      result.push_back(costs[a] + before.offset + after.offset - warmth_ * std::log(std::max(sum, kNothing)));
    }
  }

  void share(std::size_t column) {
    const auto& sits = model_.sits[column];
    if (margin_.size() < sits.size()) margin_.resize(sits.size());
    Table mean(counts_[column].size(), 0);
    for (std::size_t k = 0; k < sits.size(); ++k) {
      margins(sits[k][0], sits[k][1], margin_[k]);
      for (std::size_t a = 0; a < mean.size(); ++a) mean[a] += margin_[k][a] / static_cast<double>(sits.size());
    }
    for (std::size_t k = 0; k < sits.size(); ++k) {
      for (std::size_t a = 0; a < mean.size(); ++a) messages_[column][k][a] += mean[a] - margin_[k][a];
    }
  }

  static double least_of(const Table& table) { return *std::min_element(table.begin(), table.end()); }

  const WideModel& model_;
  const Domains& counts_;
  const Table& worth_;
  double warmth_;
  std::vector<std::vector<Weights>> front_, back_;  // by group, by position; one more at the end
  std::vector<std::vector<Table>> messages_;        // as in WideNode
  std::vector<Table> margin_;                       // scratch
};

}  // namespace

bool soften(const WideModel& model, WideNode& node, const Table& unit_worth, double warmth, int passes,
            TimeLimit limit) {
  Soft soft(model, node, unit_worth, warmth);
  for (int i = 0; i < passes && !limit.over(); ++i) soft.pass(i % 2 == 0);
  auto messages = soft.whole_messages();
  if (!messages) return false;
  node.messages = *std::move(messages);
  node.pass = 0;
  return true;
}

}  // namespace teetally
