#include "purchase/cut/simplex.h"

#include <cmath>

namespace teetally {
namespace {
constexpr double kTiny = 1e-9;
constexpr int kMostOwnSteps = 2000;
}  // namespace

GrowingProgram::GrowingProgram(const std::vector<double>& demand, const std::vector<double>& cost,
                               const std::vector<double>& room)
    : demands_(demand.size()), rows_(demand.size() + room.size()), shortage_cost_(cost) {
  inverse_.assign(rows_, std::vector<double>(rows_, 0.0));
  for (std::size_t r = 0; r < rows_; ++r) {
    inverse_[r][r] = 1;
    value_.push_back(r < demands_ ? demand[r] : room[r - demands_]);
    base_cost_.push_back(r < demands_ ? cost[r] : 0.0);
    base_name_.push_back(-1);
  }
}

std::vector<double> GrowingProgram::multipliers() const {
  std::vector<double> y(rows_, 0.0);
  for (std::size_t r = 0; r < rows_; ++r) {
    if (base_cost_[r] == 0) continue;
    for (std::size_t c = 0; c < rows_; ++c) y[c] += base_cost_[r] * inverse_[r][c];
  }
  return y;
}

bool GrowingProgram::pivot(const std::vector<double>& column, double cost, int name) {
  std::vector<double> in(rows_, 0.0);
  for (std::size_t r = 0; r < rows_; ++r) {
    for (std::size_t c = 0; c < rows_; ++c) {
      if (column[c] != 0) in[r] += inverse_[r][c] * column[c];
    }
  }
  std::size_t out = rows_;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (in[r] <= kTiny) continue;
    if (out == rows_ || value_[r] / in[r] < value_[out] / in[out] - kTiny) out = r;
  }
  if (out == rows_) return false;
  const double step = value_[out] / in[out];
  for (std::size_t r = 0; r < rows_; ++r) {
    if (r == out) continue;
    value_[r] = std::max(0.0, value_[r] - step * in[r]);
    if (in[r] == 0) continue;
    const double share = in[r] / in[out];
    for (std::size_t c = 0; c < rows_; ++c) inverse_[r][c] -= share * inverse_[out][c];
  }
  for (double& entry : inverse_[out]) entry /= in[out];
  value_[out] = step;
  base_cost_[out] = cost;
  base_name_[out] = name;
  return true;
}

bool GrowingProgram::enter(const std::vector<std::pair<int, double>>& column, int name) {
  const std::vector<double> y = multipliers();
  std::vector<double> dense(rows_, 0.0);
  double gain = 0;
  for (const auto& [row, amount] : column) {
    dense[static_cast<std::size_t>(row)] += amount;
    gain += y[static_cast<std::size_t>(row)] * amount;
  }
  return gain > kTiny && pivot(dense, 0, name);
}

void GrowingProgram::settle() {
  for (int i = 0; i < kMostOwnSteps; ++i) {
    const std::vector<double> y = multipliers();
    std::vector<double> dense(rows_, 0.0);
    double most = kTiny, cost = 0;
    std::size_t best = rows_;
    double sign = 1;
    for (std::size_t r = 0; r < rows_; ++r) {
      // A surplus where a demand's price is negative, shortage where it exceeds its cost, spare room likewise.
      const bool demand = r < demands_;
      const double surplus = demand ? -y[r] : y[r];
      const double lacking = demand ? y[r] - shortage_cost_[r] : 0;
      if (surplus > most) most = surplus, best = r, sign = demand ? -1 : 1, cost = 0;
      if (lacking > most) most = lacking, best = r, sign = 1, cost = shortage_cost_[r];
    }
    if (best == rows_) return;
    dense[best] = sign;
    if (!pivot(dense, cost, -1)) return;
  }
}

std::vector<double> GrowingProgram::prices() const {
  std::vector<double> y = multipliers();
  for (std::size_t r = 0; r < rows_; ++r) y[r] = std::max(0.0, r < demands_ ? y[r] : -y[r]);
  return y;
}

double GrowingProgram::shortage() const {
  double sum = 0;
  for (std::size_t r = 0; r < rows_; ++r) sum += base_cost_[r] * value_[r];
  return sum;
}

std::vector<std::pair<int, double>> GrowingProgram::amounts() const {
  std::vector<std::pair<int, double>> found;
  for (std::size_t r = 0; r < rows_; ++r) {
    if (base_name_[r] >= 0 && value_[r] > kTiny) found.emplace_back(base_name_[r], value_[r]);
  }
  return found;
}

}  // namespace teetally
