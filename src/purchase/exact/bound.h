#pragma once
// A lower bound for what is still open. The cost is split among the group chains and, for each column, a small
// pair of (count, supplier state); wherever a variable stands in several of them, messages say how its cost is
// shared. Any split gives a true bound; sweep() moves shares so that the bound rises (sequential reweighted
// message passing: Kolmogorov, IEEE TPAMI 28(10), 2006, with these chains) and drops values that cannot be part
// of a plan cheaper than the best known one.
#include <limits>
#include <vector>

#include "purchase/exact/group.h"

namespace teetally {

struct PairMessages {
  Table counts, states;
};

// One node of the search: what is open, how cost is shared, and what follows.
struct SearchNode {
  Domains domains;  // columns, then suppliers
  std::vector<ChainMessages> groups;
  std::vector<PairMessages> pairs;  // by column
  Table pressure;                   // by supplier: lifts goods towards a state's `from`
  double bound = -kNever;
  std::vector<int> suggestion;  // by variable: a value each chain likes
};

class Bound {
 public:
  explicit Bound(const ExactModel& model);

  // `most`: of each column.
  SearchNode first_node(const std::vector<std::int64_t>& most) const;
  // One pass over all variables, rising or falling. False when nothing cheaper than `best` (scaled) is left.
  bool sweep(SearchNode& node, bool rising, double best);
  // Where to split: for every open variable, the first value of the upper part; the most undecided first.
  struct Split {
    int variable = -1;
    std::size_t at = 0;
    bool low_first = true;
    double spread = 0;
  };
  std::vector<Split> splits(SearchNode& node, double best);
  SearchNode child(const SearchNode& node, const Split& split, bool low) const;
  // Keeps only the values of a variable that are marked.
  void restrict(SearchNode& node, int variable, const std::vector<bool>& keep) const;
  // The bound of the node as its messages stand, without moving any.
  double evaluate(SearchNode& node);
  // Prices goods of a supplier lower by `pressure` in states that need goods of at least `from`, and charges
  // pressure * from instead: still a bound, and higher where those states would be missed.
  void set_pressure(SearchNode& node, int supplier, double pressure) const;

  std::int64_t sweeps() const { return sweeps_; }
  // Entries of tables that sweeps have gone through, roughly: the same on every machine.
  double work() const { return work_; }

 private:
  struct Factor {
    int group = -1, element = -1;  // a chain's element
    int column = -1;               // or a pair, seen from its count or from its state
    bool from_state = false;
  };
  double pair_margins(const SearchNode& node, int column, bool from_state, Table& result) const;
  void margins(SearchNode& node, const Factor& factor, Table& result);
  double& least_of(const Factor& factor);
  Table& messages(SearchNode& node, const Factor& factor) const;
  bool update(SearchNode& node, int variable, double best, double& total);
  double start_pass(SearchNode& node, bool rising);
  void step(SearchNode& node, int variable, bool rising);
  void spread_fixed(SearchNode& node, int supplier, double old_pressure) const;
  Split split_of(int variable, const Table& sum, double warmth) const;
  double fixed_cost(const SupplierState& state, double pressure) const;

  const ExactModel* model_;
  int columns_;
  std::vector<GroupChain> chains_;
  std::vector<double> least_chain_, least_pair_;
  std::vector<std::vector<Factor>> factors_;  // by variable
  std::vector<Table> margin_;                 // scratch, as are these
  Table sum_;
  std::vector<std::size_t> kept_;
  double work_of_sweep(const SearchNode& node) const;
  std::int64_t sweeps_ = 0;
  double work_ = 0;
};

}  // namespace teetally
