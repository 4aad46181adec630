#pragma once
// The parts that prices split a case into, each as cheap as it can be: orders with their bundles, and covers of needs
// that share items. Besides their sum, the bound, they tell what the bound would be with one more thing settled: how
// many of a bundle, or which state an order is in. What would be too dear can then be left out of the case.
#include <vector>

#include "teetally/verify/bound.h"

namespace teetally {

// By state of what is missing, or by value of what may be settled. Steps.
using Steps = std::vector<std::int64_t>;

// A state that an order may be in: -1 none, else an index into PriceSplit::rates of its supplier.
struct OpenState {
  int state = -1;
  std::int64_t rate = 0;
  std::int64_t least = 0;  // of its cost less the rate for all goods
  std::int64_t goods = -1;
};
std::vector<OpenState> open_states(const OpenCase& open, std::size_t supplier, const PriceSplit& prices,
                                   std::int64_t steps);

// One group as a row of elements: first contents of bundles, then suppliers with their packs. Tables from the front say
// what covering so much costs with the elements before, those from the back with the elements after.
class GroupCover {
 public:
  struct Element {
    std::size_t offer = 0, end = 0;  // offers
    int supplier = -1;               // or
    int bundle = -1, share = -1;
    bool always = true;    // every bundle brings it
    bool counted = false;  // each count of the content is a value of its own, from `first` on
    std::int64_t first = 0;
  };
  GroupCover(const CoverGroup& group, const PriceSplit& prices, const std::vector<std::vector<OpenState>>& states);

  const std::vector<Element>& elements() const { return elements_; }
  void start();  // clears both ends
  void forward(std::size_t element);
  void backward(std::size_t element);
  std::int64_t from_front() const { return front_.back().back(); }  // after all forward steps
  std::int64_t from_back() const { return back_.front().back(); }   // after all backward steps
  // The least with each value of the element: counts from `first` on, or the supplier's open states. Needs the tables
  // before and after it. Empty for contents that are not counted.
  Steps settled(std::size_t element) const;
  // Adds what one cheapest cover takes; after all forward steps.
  void read_off(CaseLook& look) const;
  // What the group pays for a state.
  std::int64_t call(int supplier, int state) const;

 private:
  void take(std::size_t element, const Steps& before, Steps& after) const;
  std::int64_t meet(const Steps& before, const Steps& after) const;

  const CoverGroup* group_;
  const PriceSplit* prices_;
  const std::vector<std::vector<OpenState>>* states_;
  std::vector<Element> elements_;
  std::vector<Steps> front_, back_;
};

// All parts of a case. Prices may be changed between calls, but for rates; what rests on them is then stepped anew.
class CaseParts {
 public:
  CaseParts(const OpenCase& open, const PriceSplit& prices, std::int64_t steps);

  std::vector<GroupCover>& covers() { return covers_; }
  const std::vector<GroupCover>& covers() const { return covers_; }
  const std::vector<std::vector<OpenState>>& states() const { return states_; }
  // An order with its bundles: the least with each open state.
  Steps order(std::size_t supplier) const;
  // The same with each count of one of its bundles, over all states; counts from the case's least on.
  Steps order_by_count(std::size_t bundle, std::int64_t counts) const;
  // Steps all tables from the back, or from the front; the bound.
  std::int64_t start(bool from_front = true);
  std::int64_t bound(CaseLook* look = nullptr);
  // How far the bound of each value lies above the case's; nothing where values are too many.
  struct Rises {
    std::vector<Steps> states;  // by supplier, then by open state
    std::vector<Steps> counts;  // by bundle, then by count from the case's least on
  };
  Rises rises();  // after start(false)
  // Leaves out counts and states at either end whose bound is above `enough`; how many were.
  std::size_t narrow(CaseSpans& spans, std::int64_t enough);

 private:
  std::int64_t bundle_least(std::size_t bundle, const OpenState& state, std::int64_t* count) const;
  std::int64_t bundle_cost(std::size_t bundle, const OpenState& state, std::int64_t count) const;
  Steps order_without(std::size_t supplier, std::size_t bundle) const;
  void look_at_orders(CaseLook& look) const;
  void add_rises(GroupCover& cover, Rises& rises) const;
  void narrow_order(std::size_t supplier, Span& span, std::int64_t low, std::int64_t high) const;

  const OpenCase& open_;
  const PriceSplit& prices_;
  std::int64_t steps_;
  std::vector<std::vector<OpenState>> states_;  // by supplier
  std::vector<GroupCover> covers_;
  std::vector<std::vector<std::size_t>> bundles_of_;  // by supplier
};

}  // namespace teetally
