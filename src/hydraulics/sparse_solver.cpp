#include "hydraulics/sparse_solver.h"

#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>
#include <algorithm>

namespace teetally::hydraulics {

struct SparseSolver::Inside {
  Eigen::SparseMatrix<double> matrix;  // lower triangle
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower> factor;
  std::vector<Eigen::Index> diagonal_at;  // places in the matrix's values
  std::vector<Eigen::Index> pair_at;
};

namespace {

Eigen::Index place_of(const Eigen::SparseMatrix<double>& matrix, int row, int column) {
  const int* first = matrix.innerIndexPtr() + matrix.outerIndexPtr()[column];
  const int* last = matrix.innerIndexPtr() + matrix.outerIndexPtr()[column + 1];
  return std::lower_bound(first, last, row) - matrix.innerIndexPtr();
}

}  // namespace

SparseSolver::SparseSolver(int size, const std::vector<std::pair<int, int>>& pairs)
    : inside_(std::make_unique<Inside>()) {
  std::vector<Eigen::Triplet<double>> places;
  places.reserve(pairs.size() + static_cast<std::size_t>(size));
  for (int i = 0; i < size; ++i) places.emplace_back(i, i, 1.0);
  for (const auto& [i, j] : pairs) places.emplace_back(std::max(i, j), std::min(i, j), 0.0);
  auto& matrix = inside_->matrix;
  matrix.resize(size, size);
  matrix.setFromTriplets(places.begin(), places.end());
  for (int i = 0; i < size; ++i) inside_->diagonal_at.push_back(place_of(matrix, i, i));
  for (const auto& [i, j] : pairs) inside_->pair_at.push_back(place_of(matrix, std::max(i, j), std::min(i, j)));
  inside_->factor.analyzePattern(matrix);
}

SparseSolver::~SparseSolver() = default;

bool SparseSolver::solve(const std::vector<double>& diagonal, const std::vector<double>& conductance,
                         const std::vector<double>& b, std::vector<double>& x) {
  double* values = inside_->matrix.valuePtr();
  std::fill(values, values + inside_->matrix.nonZeros(), 0.0);
  for (std::size_t i = 0; i < diagonal.size(); ++i) values[inside_->diagonal_at[i]] = diagonal[i];
  for (std::size_t k = 0; k < conductance.size(); ++k) values[inside_->pair_at[k]] -= conductance[k];
  inside_->factor.factorize(inside_->matrix);
  if (inside_->factor.info() != Eigen::Success) return false;
  const Eigen::Map<const Eigen::VectorXd> right(b.data(), static_cast<Eigen::Index>(b.size()));
  const Eigen::VectorXd answer = inside_->factor.solve(right);
  x.assign(answer.data(), answer.data() + answer.size());
  return true;
}

}  // namespace teetally::hydraulics
