#pragma once
// Symmetric positive definite systems of one fixed pattern, solved again and again with new values: the pattern is
// ordered once, then each solve is one sparse Cholesky factorisation. On a tree there is no fill-in.
#include <memory>
#include <utility>
#include <vector>

namespace teetally::hydraulics {

class SparseSolver {
 public:
  // `pairs` are the off-diagonal places (i, j), i != j, in any order; the same place may come more than once.
  SparseSolver(int size, const std::vector<std::pair<int, int>>& pairs);
  ~SparseSolver();
  SparseSolver(const SparseSolver&) = delete;
  SparseSolver& operator=(const SparseSolver&) = delete;

  // Solves A x = b, where A has `diagonal` and, at pairs[k] and its mirror, the sum of -conductance[k]. False when
  // A is not positive definite.
  bool solve(const std::vector<double>& diagonal, const std::vector<double>& conductance, const std::vector<double>& b,
             std::vector<double>& x);

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace teetally::hydraulics
