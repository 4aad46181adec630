#include "teetally/base/simplex.h"

#include <cmath>
#include <numeric>
#include <stdexcept>

namespace teetally {
namespace {

constexpr double kZero = 1e-11;  // coefficients below this are rounding noise
constexpr double kGain = 1e-9;   // a column must gain more than this to enter
constexpr int kPatience = 60;    // steps without gain before columns are taken in fixed order, which never cycles
constexpr int kMostSteps = 200'000;

// The program as a dictionary: each row's variable as its constant less the columns' variables.
class Dictionary {
 public:
  explicit Dictionary(const LinearProgram& program)
      : columns_(program.gains.size()), width_(columns_ + 1), rows_(program.rows.size()), cells_((rows_ + 1) * width_) {
    for (std::size_t r = 0; r < rows_; ++r) {
      for (const auto& [column, each] : program.rows[r].terms) at(r, static_cast<std::size_t>(column)) += each;
      at(r, columns_) = program.rows[r].most;
    }
    for (std::size_t c = 0; c < columns_; ++c) at(rows_, c) = -program.gains[c];
    across_.resize(columns_);
    down_.resize(rows_);
    std::iota(across_.begin(), across_.end(), 0U);
    std::iota(down_.begin(), down_.end(), columns_);
  }

  void solve() {
    int idle = 0;
    for (int step = 0; step < kMostSteps; ++step) {
      const std::size_t column = entering(idle > kPatience);
      if (column == columns_) return;
      const std::size_t row = leaving(column);
      if (row == rows_) throw std::logic_error("a linear program of the shares has no limit");
      const double before = at(rows_, columns_);
      pivot(row, column);
      idle = at(rows_, columns_) > before + kGain ? 0 : idle + 1;
    }
    throw std::logic_error("a linear program of the shares does not come to an end");
  }

  LinearAnswer answer() const {
    LinearAnswer answer;
    answer.value = cells_[rows_ * width_ + columns_];
    answer.x.assign(columns_, 0);
    answer.prices.assign(rows_, 0);
    for (std::size_t r = 0; r < rows_; ++r) {
      if (down_[r] < columns_) answer.x[down_[r]] = cells_[r * width_ + columns_];
    }
    for (std::size_t c = 0; c < columns_; ++c) {
      if (across_[c] >= columns_) answer.prices[across_[c] - columns_] = cells_[rows_ * width_ + c];
    }
    return answer;
  }

 private:
  double& at(std::size_t row, std::size_t column) { return cells_[row * width_ + column]; }

  // The column that gains most; in fixed order the lowest variable that gains at all (Bland's rule).
  std::size_t entering(bool in_order) {
    std::size_t best = columns_;
    for (std::size_t c = 0; c < columns_; ++c) {
      const double gain = -at(rows_, c);
      if (gain <= kGain) continue;
      if (best == columns_ || (in_order ? across_[c] < across_[best] : gain > -at(rows_, best))) best = c;
    }
    return best;
  }

  std::size_t leaving(std::size_t column) {
    std::size_t best = rows_;
    double least = 0;
    for (std::size_t r = 0; r < rows_; ++r) {
      const double each = at(r, column);
      if (each <= kGain) continue;
      const double ratio = at(r, columns_) / each;
      if (best == rows_ || ratio < least || (ratio == least && down_[r] < down_[best])) {
        best = r;
        least = ratio;
      }
    }
    return best;
  }

  void pivot(std::size_t row, std::size_t column) {
    const double inverse = 1 / at(row, column);
    double* const pivot_row = &at(row, 0);
    std::vector<std::size_t> used;
    for (std::size_t c = 0; c < width_; ++c) {
      if (c == column) continue;
      pivot_row[c] *= inverse;
      if (std::abs(pivot_row[c]) < kZero) pivot_row[c] = 0;
      if (pivot_row[c] != 0) used.push_back(c);
    }
    pivot_row[column] = inverse;
    for (std::size_t r = 0; r <= rows_; ++r) {
      double* const other = &at(r, 0);
      const double each = other[column];
      if (r == row || each == 0) continue;
      for (const std::size_t c : used) other[c] -= each * pivot_row[c];
      if (r < rows_ && other[columns_] < 0) other[columns_] = 0;  // noise: the ratio test keeps it at zero or above
      other[column] = -each * inverse;
    }
    std::swap(down_[row], across_[column]);
  }

  std::size_t columns_, width_, rows_;
  std::vector<double> cells_;
  std::vector<std::size_t> across_, down_;  // variables: columns first, then the rows' slacks
};

}  // namespace

LinearAnswer maximise(const LinearProgram& program) {
  Dictionary dictionary(program);
  dictionary.solve();
  return dictionary.answer();
}

}  // namespace teetally
