// Shares that look at every group of a small pool. All of them move away from a split at hand, x0, by steps that
// add up to nothing; then nothing to start from is needed and every row has room for no step at all.
#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

#include "teetally/base/simplex.h"
#include "teetally/quote/shares.h"

namespace teetally {
namespace {

constexpr double kSame = 1e-7;

std::uint32_t everybody(const GroupCosts& groups) { return (1U << groups.members) - 1; }

double sum_over(std::uint32_t group, const std::vector<double>& paid) {
  double sum = 0;
  for (std::size_t i = 0; i < paid.size(); ++i) {
    if ((group >> i & 1U) != 0) sum += paid[i];
  }
  return sum;
}

// Everybody's cost in equal parts: any split will do to start from.
std::vector<double> equal_parts(const GroupCosts& groups) {
  return std::vector<double>(static_cast<std::size_t>(groups.members), groups.cost[everybody(groups)] / groups.members);
}

// The step of a group as terms: columns 2i and 2i+1 are member i's step up and down, and the last member makes up
// for all others.
LinearTerms step_of(std::uint32_t group, int members) {
  const bool last = (group >> (members - 1) & 1U) != 0;
  LinearTerms terms;
  for (int i = 0; i + 1 < members; ++i) {
    const double each = ((group >> i & 1U) != 0 ? 1.0 : 0.0) - (last ? 1.0 : 0.0);
    if (each == 0) continue;
    terms.emplace_back(2 * i, each);
    terms.emplace_back(2 * i + 1, -each);
  }
  return terms;
}

void take_step(std::vector<double>& paid, const std::vector<double>& x) {
  for (std::size_t i = 0; i + 1 < paid.size(); ++i) {
    const double step = x[2 * i] - x[2 * i + 1];
    paid[i] += step;
    paid.back() -= step;
  }
}

// Which groups' payments follow from those settled: the rows of a growing triangular system.
class Settled {
 public:
  explicit Settled(int members) : members_(members) { add((1U << members) - 1); }
  bool follows(std::uint32_t group) const {
    const std::vector<double> rest = reduced(group);
    return std::all_of(rest.begin(), rest.end(), [](double each) { return std::abs(each) < kSame; });
  }
  void add(std::uint32_t group) {
    std::vector<double> rest = reduced(group);
    const auto lead = std::find_if(rest.begin(), rest.end(), [](double each) { return std::abs(each) >= kSame; });
    if (lead == rest.end()) return;
    const double scale = *lead;
    const auto column = static_cast<std::size_t>(lead - rest.begin());
    for (double& each : rest) each /= scale;
    rows_.emplace_back(column, std::move(rest));
  }
  bool all() const { return static_cast<int>(rows_.size()) == members_; }

 private:
  std::vector<double> reduced(std::uint32_t group) const {
    std::vector<double> rest;
    for (int i = 0; i < members_; ++i) rest.push_back((group >> i & 1U) != 0 ? 1 : 0);
    for (const auto& [column, row] : rows_) {
      const double times = rest[column];
      for (std::size_t i = 0; i < rest.size(); ++i) rest[i] -= times * row[i];
    }
    return rest;
  }
  int members_;
  std::vector<std::pair<std::size_t, std::vector<double>>> rows_;
};

// Raises what the groups not settled gain at least, as far as it goes; answers the groups that stop it.
std::vector<std::uint32_t> raise_gain(const GroupCosts& groups, const Settled& settled,
                                      const std::vector<std::uint32_t>& fixed, std::vector<double>& paid) {
  const int gain = 2 * (groups.members - 1);
  std::vector<std::uint32_t> open;
  double least = std::numeric_limits<double>::infinity();
  for (std::uint32_t group = 1; group < everybody(groups); ++group) {
    if (settled.follows(group)) continue;
    open.push_back(group);
    least = std::min(least, groups.cost[group] - sum_over(group, paid));
  }
  LinearProgram program;
  program.gains.assign(static_cast<std::size_t>(gain) + 1, 0);
  program.gains.back() = 1;
  for (const std::uint32_t group : open) {
    LinearTerms terms = step_of(group, groups.members);
    terms.emplace_back(gain, 1);
    program.rows.push_back({std::move(terms), groups.cost[group] - sum_over(group, paid) - least});
  }
  for (const std::uint32_t group : fixed) {
    LinearTerms terms = step_of(group, groups.members);
    LinearTerms back = terms;
    for (auto& [column, each] : back) each = -each;
    program.rows.push_back({std::move(terms), 0});
    program.rows.push_back({std::move(back), 0});
  }
  const LinearAnswer answer = maximise(program);
  take_step(paid, answer.x);
  std::vector<std::uint32_t> stopping;
  for (std::size_t i = 0; i < open.size(); ++i) {
    if (answer.prices[i] > kSame) stopping.push_back(open[i]);
  }
  return stopping;
}

}  // namespace

WorstGroup worst_group(const GroupCosts& groups, const std::vector<double>& paid) {
  WorstGroup worst{0, -std::numeric_limits<double>::infinity()};
  for (std::uint32_t group = 1; group < everybody(groups); ++group) {
    const double excess = sum_over(group, paid) - groups.cost[group];
    if (excess > worst.excess + kSame) worst = {group, excess};
  }
  return worst;
}

std::vector<double> nucleolus(const GroupCosts& groups) {
  std::vector<double> paid = equal_parts(groups);
  Settled settled(groups.members);
  std::vector<std::uint32_t> fixed;
  while (!settled.all()) {
    for (const std::uint32_t group : raise_gain(groups, settled, fixed, paid)) {
      fixed.push_back(group);
      settled.add(group);
    }
  }
  return paid;
}

std::vector<double> average_marginal_cost(const GroupCosts& groups) {
  const auto members = static_cast<std::size_t>(groups.members);
  std::vector<double> paid(members, 0.0), weight(members, 1.0 / groups.members);
  // A group of k others comes just before a member in k! (n - 1 - k)! of the n! orders.
  for (std::size_t k = 1; k < members; ++k) {
    weight[k] = weight[k - 1] * static_cast<double>(k) / static_cast<double>(members - k);
  }
  for (std::uint32_t group = 0; group < everybody(groups); ++group) {
    for (std::size_t i = 0; i < members; ++i) {
      if ((group >> i & 1U) != 0) continue;
      paid[i] +=
          weight[static_cast<std::size_t>(std::popcount(group))] * (groups.cost[group | 1U << i] - groups.cost[group]);
    }
  }
  return paid;
}

std::optional<EqualSaving> equal_saving(const GroupCosts& groups) {
  EqualSaving split{equal_parts(groups), 0};
  const Settled nothing(groups.members);
  raise_gain(groups, nothing, {}, split.paid);
  if (worst_group(groups, split.paid).excess > kSame) return std::nullopt;
  const auto alone = [&](int i) { return groups.cost[1U << i]; };
  const auto saving = [&](int i) { return 1 - split.paid[static_cast<std::size_t>(i)] / alone(i); };
  const auto spread = [&] {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (int i = 0; i < groups.members; ++i) {
      if (alone(i) <= 0) continue;
      low = std::min(low, saving(i));
      high = std::max(high, saving(i));
    }
    return high < low ? 0 : high - low;
  };
  const int less = 2 * (groups.members - 1);  // by how much the spread shrinks
  const double start = spread();
  LinearProgram program;
  program.gains.assign(static_cast<std::size_t>(less) + 1, 0);
  program.gains.back() = 1;
  program.rows.push_back({{{less, 1}}, start});
  for (std::uint32_t group = 1; group < everybody(groups); ++group) {
    program.rows.push_back(
        {step_of(group, groups.members), std::max(0.0, groups.cost[group] - sum_over(group, split.paid))});
  }
  for (int i = 0; i < groups.members; ++i) {
    for (int j = 0; j < groups.members; ++j) {
      if (i == j || alone(i) <= 0 || alone(j) <= 0) continue;
      LinearTerms terms{{less, 1}};
      for (const auto& [column, each] : step_of(1U << i, groups.members)) terms.emplace_back(column, -each / alone(i));
      for (const auto& [column, each] : step_of(1U << j, groups.members)) terms.emplace_back(column, each / alone(j));
      program.rows.push_back({std::move(terms), std::max(0.0, start - (saving(i) - saving(j)))});
    }
  }
  take_step(split.paid, maximise(program).x);
  split.spread = spread();
  return split;
}

}  // namespace teetally
