#pragma once
// The bound of exact/bound.h for large orders, where bundles are few against what is bought loose: what a group costs
// loose, once bundles have brought so much, is one table that never changes, so that only what bundles can bring within
// their open counts is looked at. Suppliers are taken at their cheapest. Whole steps in doubles: any split is true.
#include <cstdint>
#include <vector>

#include "purchase/exact/group.h"

namespace teetally {

struct WideGroup {
  std::int64_t full = 0;  // the demand
  Table end;              // by units that bundles bring, up to `full`: what the rest costs loose
  struct Column {
    int column = -1;
    std::int64_t units = 0;  // of one bundle
    int place = 0;           // in the column's `sits`
  };
  std::vector<Column> columns;  // rising
};

struct WideModel {
  std::vector<WideGroup> groups;
  Table price;                                        // by column: of one bundle, every credit taken
  std::vector<std::vector<std::array<int, 2>>> sits;  // by column: group, position in its columns
  double fixed = 0;                                   // what suppliers cost whatever is bought
};

struct WideNode {
  Domains counts;                            // by column, rising
  std::vector<std::vector<Table>> messages;  // by column, by where it sits, by value: together the column's cost
  double bound = -kNever;
  std::vector<int> liked;  // by column
  std::int64_t pass = 0;   // that left the tables as this node needs them for a pass the other way
};

class WideBound {
 public:
  explicit WideBound(const WideModel& model);

  // Prices split by worth of a unit, by group.
  WideNode first_node(const Domains& counts, const Table& unit_worth) const;
  // One pass over all columns, rising or falling. False when nothing within `reach` is left.
  bool sweep(WideNode& node, bool rising, double reach);
  static void keep(WideNode& node, int column, const std::vector<bool>& kept);
  // Of the last pass, by column with more than one count: what each count kept costs at least.
  const std::vector<Table>& least_by_count() const { return sums_; }

  // What counts cost, as the model has it.
  double cost(const std::vector<int>& counts) const;

 private:
  struct Window {
    std::int64_t low = 0;
    Table table;
  };
  double start_pass(const WideNode& node, bool rising);
  void start_group(const WideNode& node, std::size_t g, bool rising);
  void forward(std::size_t group, std::size_t t, const std::vector<int>& counts, const Table& message);
  void backward(std::size_t group, std::size_t t, const std::vector<int>& counts, const Table& message);
  void margins(std::size_t group, std::size_t t, const std::vector<int>& counts, const Table& message, Table& result);
  void look_covered(const Table& table, std::int64_t first);
  bool update(WideNode& node, int column, double reach, double& total);
  double share(WideNode& node, int column, const Table& sum, const std::vector<std::size_t>& kept);

  const WideModel* model_;
  std::vector<std::vector<Window>> front_, back_;  // by group, by position; one more at the end
  std::vector<std::vector<std::array<std::int64_t, 2>>> reachable_;
  std::vector<double> least_;  // by group
  std::vector<Table> margin_;  // scratch
  Table covered_;              // scratch: by place of a table, the least from there on
  std::vector<Table> sums_;    // by column
  std::int64_t pass_ = 0;
  bool rising_ = false, dropped_ = false;  // of the last pass: its direction, and whether it dropped any count
};

}  // namespace teetally
