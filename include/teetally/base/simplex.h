#pragma once
// A small linear program in one form: make gains . x as large as possible where every row
// is at most a number that is not negative, and x is not negative. So x = 0 is a start. Dense, in doubles; what
// comes out is checked or rounded in whole numbers by those who ask.
#include <utility>
#include <vector>

namespace teetally {

using LinearTerms = std::vector<std::pair<int, double>>;  // column, coefficient

struct LinearProgram {
  std::vector<double> gains;  // by column
  struct Row {
    LinearTerms terms;
    double most = 0;
  };
  std::vector<Row> rows;
};

struct LinearAnswer {
  double value = 0;
  std::vector<double> x;       // by column
  std::vector<double> prices;  // by row: what one unit more of `most` would gain
};
// Throws std::logic_error when the value has no limit: callers limit every column.
LinearAnswer maximise(const LinearProgram& program);

}  // namespace teetally
