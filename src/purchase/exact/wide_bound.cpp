#include "purchase/exact/wide_bound.h"

#include <algorithm>
#include <cmath>

#include "purchase/exact/loops.h"

namespace teetally {

WideBound::WideBound(const WideModel& model)
    : model_(&model), least_(model.groups.size(), 0), sums_(model.price.size()) {
  for (const WideGroup& group : model.groups) {
    front_.emplace_back(group.columns.size() + 1);
    back_.emplace_back(group.columns.size() + 1);
    reachable_.emplace_back(group.columns.size() + 1);
  }
}

WideNode WideBound::first_node(const Domains& counts, const Table& unit_worth) const {
  WideNode node;
  node.counts = counts;
  node.messages.resize(counts.size());
  for (std::size_t c = 0; c < counts.size(); ++c) {
    node.liked.push_back(counts[c].front());
    const auto& sits = model_->sits[c];
    double worth = 0, left = model_->price[c];
    for (const auto& [g, t] : sits) worth += unit_worth[g] * static_cast<double>(model_->groups[g].columns[t].units);
    for (std::size_t k = 0; k < sits.size(); ++k) {
      const auto& [g, t] = sits[k];
      const double part = unit_worth[g] * static_cast<double>(model_->groups[g].columns[t].units);
      const double share = k + 1 == sits.size() ? left : std::floor(worth > 0 ? model_->price[c] * part / worth : 0);
      left -= share;
      Table& message = node.messages[c].emplace_back();
      for (int count : counts[c]) message.push_back(share * count);
    }
  }
  return node;
}

double WideBound::start_pass(const WideNode& node, bool rising) {
  const bool ready = node.pass == pass_ && pass_ > 0 && rising_ != rising && !dropped_;
  double total = model_->fixed;
  for (std::size_t c = 0; c < node.counts.size(); ++c) {
    if (model_->sits[c].empty()) total += model_->price[c] * node.counts[c].front();
  }
  for (std::size_t g = 0; g < model_->groups.size(); ++g) {
    if (!ready) start_group(node, g, rising);
    total += least_[g];
  }
  return total;
}

// The tables of a group from the end where the pass does not begin.
void WideBound::start_group(const WideNode& node, std::size_t g, bool rising) {
  const WideGroup& group = model_->groups[g];
  const std::size_t columns = group.columns.size();
  auto& range = reachable_[g];
  range[0] = {0, 0};
  for (std::size_t t = 0; t < columns; ++t) {
    const std::vector<int>& counts = node.counts[group.columns[t].column];
    const std::int64_t units = group.columns[t].units;
    range[t + 1] = {std::min(group.full, range[t][0] + units * counts.front()),
                    std::min(group.full, range[t][1] + units * counts.back())};
  }
  Window& last = back_[g].back();
  last.low = range.back()[0];
  last.table.assign(group.end.begin() + range.back()[0], group.end.begin() + range.back()[1] + 1);
  front_[g].front().table.assign(1, 0);
  for (std::size_t i = 0; i < columns; ++i) {
    const std::size_t t = rising ? columns - 1 - i : i;
    const WideGroup::Column& column = group.columns[t];
    const Table& message = node.messages[column.column][column.place];
    if (rising) {
      backward(g, t, node.counts[column.column], message);
    } else {
      forward(g, t, node.counts[column.column], message);
    }
  }
  const Table& front = front_[g].back().table;
  least_[g] = rising ? back_[g].front().table.front() : least_sum(front.data(), last.table.data(), front.size());
}

void WideBound::forward(std::size_t group, std::size_t t, const std::vector<int>& counts, const Table& message) {
  const WideGroup& of = model_->groups[group];
  const Window& from = front_[group][t];
  Window& to = front_[group][t + 1];
  to.low = reachable_[group][t + 1][0];
  to.table.assign(reachable_[group][t + 1][1] - to.low + 1, kNever);
  const auto size = static_cast<std::int64_t>(from.table.size());
  look_covered(from.table, of.full - from.low - of.columns[t].units * counts.back());
  for (std::size_t a = 0; a < counts.size(); ++a) {
    const std::int64_t shift = from.low + of.columns[t].units * counts[a];
    const std::int64_t inside = std::clamp<std::int64_t>(of.full - shift, 0, size);
    if (inside > 0) lower_to(from.table.data(), to.table.data() + (shift - to.low), inside, message[a]);
    if (inside < size) to.table.back() = std::min(to.table.back(), covered_[inside] + message[a]);
  }
}

void WideBound::backward(std::size_t group, std::size_t t, const std::vector<int>& counts, const Table& message) {
  const WideGroup& of = model_->groups[group];
  const Window& from = back_[group][t + 1];
  Window& to = back_[group][t];
  to.low = reachable_[group][t][0];
  const std::int64_t size = reachable_[group][t][1] - to.low + 1;
  to.table.assign(size, kNever);
  std::int64_t first = size;  // from here on some count covers everything
  for (std::size_t a = 0; a < counts.size(); ++a) {
    const std::int64_t shift = to.low + of.columns[t].units * counts[a];
    const std::int64_t inside = std::clamp<std::int64_t>(of.full - shift, 0, size);
    if (inside > 0) lower_to(from.table.data() + (shift - from.low), to.table.data(), inside, message[a]);
    if (inside == size) continue;
    if (first == size) covered_.assign(size, kNever);
    covered_[inside] = std::min(covered_[inside], from.table.back() + message[a]);
    first = std::min(first, inside);
  }
  double least = kNever;
  for (std::int64_t n = first; n < size; ++n) {
    least = std::min(least, covered_[n]);
    to.table[n] = std::min(to.table[n], least);
  }
}

// What a table holds at least from a place on, for all places from `first` on.
void WideBound::look_covered(const Table& table, std::int64_t first) {
  const auto size = static_cast<std::int64_t>(table.size());
  if (first >= size) return;
  covered_.resize(std::max(covered_.size(), table.size()));
  double least = kNever;
  for (std::int64_t n = size; n-- > std::max<std::int64_t>(first, 0);) {
    least = std::min(least, table[n]);
    covered_[n] = least;
  }
}

void WideBound::margins(std::size_t group, std::size_t t, const std::vector<int>& counts, const Table& message,
                        Table& result) {
  const WideGroup& of = model_->groups[group];
  const Window& before = front_[group][t];
  const Window& after = back_[group][t + 1];
  const auto size = static_cast<std::int64_t>(before.table.size());
  result.resize(counts.size());
  look_covered(before.table, of.full - before.low - of.columns[t].units * counts.back());
  for (std::size_t a = 0; a < counts.size(); ++a) {
    const std::int64_t shift = before.low + of.columns[t].units * counts[a];
    const std::int64_t inside = std::clamp<std::int64_t>(of.full - shift, 0, size);
    double least = kNever;
    if (inside > 0) least = least_sum(before.table.data(), after.table.data() + (shift - after.low), inside);
    if (inside < size) least = std::min(least, covered_[inside] + after.table.back());
    result[a] = least + message[a];
  }
}

// Shares a column's cost evenly among its groups, and drops counts that cannot pay.
bool WideBound::update(WideNode& node, int column, double reach, double& total) {
  const std::vector<int>& values = node.counts[column];
  const auto& sits = model_->sits[column];
  const std::size_t count = values.size(), places = sits.size();
  node.liked[column] = values.front();
  sums_[column].clear();
  if (count == 1 || places == 0) return true;
  Table sum(count, 0);
  if (margin_.size() < places) margin_.resize(places);
  double rest = total;
  for (std::size_t k = 0; k < places; ++k) {
    const auto& [g, t] = sits[k];
    margins(g, t, values, node.messages[column][k], margin_[k]);
    rest -= least_[g];
    for (std::size_t a = 0; a < count; ++a) sum[a] += margin_[k][a];
  }
  std::vector<std::size_t> kept;
  std::size_t best = 0;
  for (std::size_t a = 0; a < count; ++a) {
    if (rest + sum[a] <= reach) kept.push_back(a);
    if (sum[a] < sum[best]) best = a;
  }
  node.liked[column] = values[best];
  for (std::size_t a : kept) sums_[column].push_back(rest + sum[a]);
  if (kept.empty()) {
    total = rest + sum[best];
    return false;
  }
  total = rest + share(node, column, sum, kept);
  if (kept.size() < count) dropped_ = true;
  return true;
}

// The margins of a column, summed, become its messages: even parts of them, for the counts that are kept. Answers what
// they come to at least.
double WideBound::share(WideNode& node, int column, const Table& sum, const std::vector<std::size_t>& kept) {
  const auto& sits = model_->sits[column];
  const auto places = static_cast<double>(sits.size());
  double total = 0;
  for (std::size_t k = 0; k < sits.size(); ++k) {
    Table& message = node.messages[column][k];
    Table after;
    double least = kNever;
    for (std::size_t a : kept) {
      const double even = std::floor(sum[a] / places);
      const double mine = k == 0 ? sum[a] - even * (places - 1) : even;
      after.push_back(message[a] - margin_[k][a] + mine);
      least = std::min(least, mine);
    }
    message = std::move(after);
    least_[sits[k][0]] = least;
    total += least;
  }
  std::vector<int> left;
  for (std::size_t a : kept) left.push_back(node.counts[column][a]);
  node.counts[column] = std::move(left);
  return total;
}

bool WideBound::sweep(WideNode& node, bool rising, double reach) {
  double total = start_pass(node, rising);
  node.pass = ++pass_;
  rising_ = rising;
  dropped_ = false;
  bool open = total <= reach;
  const int columns = static_cast<int>(node.counts.size());
  for (int i = 0; i < columns && open; ++i) {
    const int column = rising ? i : columns - 1 - i;
    open = update(node, column, reach, total);
    for (std::size_t k = 0; k < model_->sits[column].size() && open; ++k) {
      const auto& [g, t] = model_->sits[column][k];
      if (rising) {
        forward(g, t, node.counts[column], node.messages[column][k]);
      } else {
        backward(g, t, node.counts[column], node.messages[column][k]);
      }
    }
  }
  node.bound = std::max(node.bound, total);
  return open;
}

void WideBound::keep(WideNode& node, int column, const std::vector<bool>& kept) {
  const auto cut = [&](auto& values) {
    std::size_t left = 0;
    for (std::size_t a = 0; a < kept.size(); ++a) {
      if (kept[a]) values[left++] = values[a];
    }
    values.resize(left);
  };
  for (Table& message : node.messages[column]) cut(message);
  cut(node.counts[column]);
  node.pass = 0;
}

double WideBound::cost(const std::vector<int>& counts) const {
  double sum = model_->fixed;
  for (std::size_t c = 0; c < counts.size(); ++c) sum += model_->price[c] * counts[c];
  for (const WideGroup& group : model_->groups) {
    std::int64_t units = 0;
    for (const WideGroup::Column& column : group.columns) units += column.units * counts[column.column];
    sum += group.end[std::min(units, group.full)];
  }
  return sum;
}

}  // namespace teetally
