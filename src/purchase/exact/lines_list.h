#pragma once
// A line list arranged for the search (lines.h): suppliers' states in one row, prices by line. Costs are whole numbers
// of steps, kLineSteps to the minor unit, held in doubles far below 2^53, so that every sum is exact.
#include <cstdint>
#include <functional>
#include <random>
#include <vector>

#include "purchase/exact/filler.h"
#include "purchase/exact/model.h"
#include "teetally/base/stopwatch.h"

namespace teetally {

inline constexpr double kLineSteps = 1 << 24;

struct LineOption {
  int line = -1, pack = -1;
  double price = 0;  // minor units
};
struct LineState {
  int supplier = -1;
  bool used = false;
  double from = 0, to = 0, fixed = 0;  // fixed: in steps
  double rate = 0;                     // steps for one minor unit of goods, rounded down
};
struct LineList {
  int lines = 0;
  std::vector<std::vector<LineOption>> cheapest;  // by supplier: one option a line
  std::vector<std::vector<LineOption>> options;   // by supplier: all of them
  std::vector<LineState> states;                  // by supplier, then state
  std::vector<int> first;                         // by supplier: into `states`; one more at the end
};
LineList list_lines(const ExactModel& model);

// One node of the search.
struct LineNode {
  std::vector<bool> may;       // by state
  std::vector<double> worth;   // by line, in steps
  std::vector<double> priced;  // by state: steps for one minor unit of goods, after the pressure
  std::vector<double> liked;   // by state: how often the last rounds took it
  double bound = -kNever;
};
int states_left(const LineList& list, const LineNode& node, int supplier);
// Used, in the only state it may have; -1: it may still be unused, or in several states.
int settled_state(const LineList& list, const LineNode& node, int supplier);

// What a state costs at the node's worths: its goods, less what they are worth.
double value_of(const LineList& list, const LineNode& node, int state);

// Raises the node's bound by giving each line, and each threshold, in turn the worth and the pressure at which the
// bound is highest while all others stay.
void ascend(const LineList& list, LineNode& node, int passes);

// Gives settled suppliers the pressures at which the end's bound is near its highest, or above `enough`. Answers about
// that bound: a guide, not a proof.
double press(const LineList& list, LineNode& node, double enough);

// Which line goes where once every supplier's state is settled.
class LineEnd {
 public:
  using Picks = std::vector<const LineOption*>;  // by line
  using Visit = std::function<double(const Picks&)>;

  LineEnd(const LineList& list, const LineNode& node, Filler& filler);
  // No assignment costs less; kNever when some line has no supplier.
  double bound() const { return bound_; }
  // A good assignment, better with more rounds.
  Picks polished(int rounds, const TimeLimit& limit);
  // Every assignment that costs at most a limit, filler for missed thresholds included. `visit` prices one and answers
  // the limit from then on. False when `steps` run out before all were looked at.
  bool all_within(double limit, std::int64_t& steps, const Visit& visit);

 private:
  struct Choice {
    const LineOption* option = nullptr;
    int supplier = -1;
    double slack = 0;
  };
  struct Span {  // of goods that the free lines can still bring
    double least = 0, most = 0;
  };
  struct Move {
    int line = -1;
    std::size_t choice = 0;
  };
  struct Swing {
    int line = -1;
    std::size_t here = 0, away = 0;  // choices
  };
  void apply(const Move& move, std::vector<std::size_t>& chosen);
  void put_back(const std::vector<std::size_t>& old, std::vector<std::size_t>& chosen);
  double excess(const std::vector<std::size_t>& chosen) const;
  std::vector<Swing> swings_of(int supplier, const std::vector<bool>& frozen,
                               const std::vector<std::size_t>& chosen) const;
  void share(int supplier, const std::vector<bool>& frozen, std::vector<std::size_t>& chosen);
  void share_anew(const std::vector<int>& order, std::vector<std::size_t>& chosen);
  bool presses(int supplier) const;
  double penalty(int supplier, double least, double most) const;
  double penalties(std::size_t depth) const;
  void split(double limit);
  void measure_spans();
  void search(std::size_t depth, double spent);

  const LineList& list_;
  Filler& filler_;
  std::vector<int> state_;  // by supplier; -1 unused
  std::vector<double> priced_;
  std::vector<std::vector<Choice>> choices_;  // by line, slack rising
  double bound_ = 0, limit_ = 0;
  std::vector<int> tight_;                // suppliers with a threshold
  std::vector<std::size_t> wide_;         // by line: choices within the limit
  std::vector<int> free_;                 // lines with more than one of them
  std::vector<std::vector<Span>> spans_;  // by depth, then position in tight_
  std::vector<double> goods_;             // by supplier
  Picks picked_;
  std::int64_t steps_ = 0;
  Visit visit_;
};

}  // namespace teetally
