#pragma once
// A small linear program grown column by column: rows "sum >= demand" whose shortage costs, and rows "sum <= room".
// It computes in floating point: its prices are suggestions, which whoever uses them checks in whole numbers.
#include <utility>
#include <vector>

namespace teetally {

class GrowingProgram {
 public:
  // `cost` of each missing unit of a demand row. Demand rows come first.
  GrowingProgram(const std::vector<double>& demand, const std::vector<double>& cost, const std::vector<double>& room);

  // Moves one column of no cost into the base; false when it would not lower the shortage.
  bool enter(const std::vector<std::pair<int, double>>& column, int name);
  // Moves rows' own columns while that lowers the shortage.
  void settle();
  // Price of a unit in each row: of demand at least zero; of room at least zero as well.
  std::vector<double> prices() const;
  double shortage() const;
  // Named columns in the base, with their amounts.
  std::vector<std::pair<int, double>> amounts() const;

 private:
  bool pivot(const std::vector<double>& column, double cost, int name);
  std::vector<double> multipliers() const;

  std::size_t demands_, rows_;
  std::vector<std::vector<double>> inverse_;
  std::vector<double> value_, base_cost_, shortage_cost_;
  std::vector<int> base_name_;  // a column's name; -1: a row's own
};

}  // namespace teetally
