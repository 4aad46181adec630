#pragma once
// One need group as a chain: first the bundle columns that touch it, then the suppliers' loose packs. A table
// holds, for each state (how much of each demand is covered so far), the least scaled cost to get there
// (forward) or from there to the end (backward). Costs of columns and of supplier states are messages: shares
// of the true cost, which the bound moves between groups; packs are priced at the rate of the supplier's state.
#include <vector>

#include "purchase/exact/model.h"

namespace teetally {

using Table = std::vector<double>;

// What may still happen, by variable: columns first (how many), then suppliers (indices into their states).
using Domains = std::vector<std::vector<int>>;

struct ChainMessages {
  std::vector<Table> columns;    // by position in the group's columns, then by value in the domain
  std::vector<Table> suppliers;  // by position in the chain's present suppliers, then by value
};

// From a row of states, in which the first need is covered more and more, to another row, so far along it.
struct RowMove {
  std::int64_t to = 0, along = 0;
};

class GroupChain {
 public:
  GroupChain(const ExactModel& model, int group);

  int elements() const { return columns_ + static_cast<int>(present_.size()); }
  int column_elements() const { return columns_; }
  // Suppliers with loose packs for the group, in order; element column_elements() + i is the i-th.
  const std::vector<int>& present() const { return present_; }
  // The variable an element decides.
  int variable(int element) const;

  // Starts a pass over these domains: where windows begin, and the end tables.
  void prepare(const Domains& domains);
  void forward(int element, const Domains& domains, const ChainMessages& messages, const Table& pressure);
  void backward(int element, const Domains& domains, const ChainMessages& messages, const Table& pressure);
  // Least cost of the group for each value of the element's variable; needs forward tables up to the element
  // and backward tables after it.
  void margins(int element, const Domains& domains, const ChainMessages& messages, const Table& pressure,
               Table& result);
  double least_from_front() const;  // after all backward steps
  double least_from_back() const;   // after all forward steps

  // Adds any number of loose packs of a supplier at a rate: to_end tables (cost from a state on), whole range.
  void buy_backward(int supplier, double rate, const Table& next, Table& result, std::int64_t low) const;

  // The same for one offer of the group.
  void offer_backward(const GroupOffer& offer, double rate, const Table& next, Table& result, std::int64_t low) const;

  // At least what leaving a part out saves.
  double credit_of(const ColumnPart& part, double rate) const;

  const NeedGroup& group() const { return *group_; }
  std::int64_t full() const { return group_->states - 1; }
  // States that are reached from `state` by so many times what something brings; only the ones worth considering.
  void advance(std::int64_t state, const Brings& brings, std::int64_t times, std::vector<std::int64_t>& next) const;
  // Whether so many times what something brings is all that it can ever bring.
  bool is_enough(const Brings& brings, std::int64_t times) const;

 private:
  double price(std::int64_t goods, double rate) const { return model_->measure.goods(goods, rate); }
  bool plain() const { return group_->demand.size() == 1; }
  // One demand and cut rules: the table is a row of the demand's states for each state of the rules.
  bool in_rows() const { return group_->needs.size() == 1 && !plain(); }
  // The state with so many times what rules count on top.
  std::int64_t counted_up(const Brings& brings, std::int64_t times, std::int64_t state) const;
  // Where a row goes by so many times what something brings. What may go to several needs is shared out in every way
  // worth considering; along the row some of it may be wasted.
  void row_moves(std::int64_t row, const Brings& brings, std::int64_t times, std::vector<RowMove>& moves) const;
  std::int64_t row_length() const { return group_->demand.front() + 1; }
  void row_forward(const double* before, double* after, std::int64_t along, double cost) const;
  void row_backward(double* before, const double* after, std::int64_t along, double cost) const;
  void repeat_forward(const Brings& brings, double each, Table& taken) const;
  void repeat_backward(const Brings& brings, double each, Table& rest) const;
  void shift_forward(const Table& from, std::int64_t low_from, Table& to, std::int64_t low_to, const Brings& brings,
                     std::int64_t times, double cost) const;
  void shift_backward(Table& from, std::int64_t low_from, const Table& to, std::int64_t low_to, const Brings& brings,
                      std::int64_t times, double cost) const;
  void flat_backward(const GroupOffer& offer, double rate, Table& result) const;
  void buy_forward(int supplier, double rate, const Table& before, Table& result, std::int64_t low) const;
  void column_forward(int element, const std::vector<int>& counts, const Table& costs);
  void column_backward(int element, const std::vector<int>& counts, const Table& costs, int only, Table& result);

  double direct_margin(int element, int count) const;
  template <typename Buy, typename Each>
  void by_state(int supplier, const std::vector<int>& values, double pressure, const Buy& buy, const Each& each) const;

  const ExactModel* model_;
  const NeedGroup* group_;
  int columns_;
  std::vector<int> present_;
  std::vector<Table> front_, back_;  // by element; one more at the end
  std::vector<std::int64_t> low_;    // first state of the tables, by element (plain groups)
  std::vector<double> credit_rate_;  // by column position: the dearest rate of its supplier
  std::vector<bool> direct_;         // by column position: one part, always taken, one demand
  mutable Table scratch_, bought_, taken_, before_;
  mutable std::vector<RowMove> moves_;
};

// The rates at which a supplier's loose packs are priced, by state: the state's rate less the pressure.
double pack_rate(const SupplierState& state, double pressure);

}  // namespace teetally
