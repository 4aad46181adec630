#pragma once
// A PurchaseProblem under one choice of fit families, arranged for the exact search: needs that share products
// form groups, bundles become columns (one per combination of swaps), and each supplier has states - unused, or
// used with its goods in one bracket of its ordering terms.
//
// Costs are scaled: one minor unit is so many steps, and what decides between equal costs is the steps in between
// (exact/ties.h). They are whole numbers held in doubles, far below 2^53, so sums and minima are exact; where a price
// is multiplied by a rate it is rounded down. Every bound is therefore a true lower bound, whatever the messages were.
#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "purchase/exact/ties.h"
#include "purchase/plan.h"
#include "purchase/problem.h"

namespace teetally {

inline constexpr double kNever = 1e17;          // dearer than anything
inline constexpr std::size_t kMostSharing = 8;  // needs of a group that share products

// From `first` lots on, the first cost `start` together and each more `each`.
struct PriceRun {
  std::int64_t first = 1, start = 0, each = 0;
};

// What one lot or one part adds to what a group demands: units that are shared out among the needs of `dims`, and so
// much to each cut rule, whatever the units go to.
struct Brings {
  unsigned dims = 1;  // bit per dimension of needs
  std::int64_t units = 0;
  std::vector<std::int64_t> counted;  // by rule
};

// A pack that serves a group.
struct GroupOffer {
  int pack = -1;
  Brings brings;                    // a lot
  double tie = 0;                   // scaled, of one lot
  std::vector<PriceRun> runs;       // any number of lots from each run's first on; empty when limited
  std::vector<std::int64_t> costs;  // limited offers: of 1, 2, ... lots; -1 where that many are not sold
};

// What one bundle of a column brings to a group; `credit` and `tie` are what leaving the part out saves.
struct ColumnPart {
  int part = -1, choice = -1;  // of the bundle; choice: the leave-out, -1 when it must be taken
  Brings brings;
  std::int64_t credit = 0;
  double tie = 0;  // scaled, rounded up
  bool may_go() const { return choice >= 0; }
};
struct GroupColumn {
  int column = -1;
  std::vector<ColumnPart> parts;
};

struct NeedGroup {
  std::vector<std::int64_t> demand;  // by dimension: of needs, in units of `unit`, then what cut rules ask for
  std::int64_t unit = 1;
  std::int64_t states = 0;              // product of (demand + 1)
  std::vector<std::vector<int>> needs;  // by dimension, without the rules: needs that the same products serve
  std::vector<Reach>
      sums;  // each a dimension after those of needs: cut rules, and what needs that share products ask for
  std::vector<std::vector<GroupOffer>> offers;  // by supplier
  std::vector<GroupColumn> columns;             // rising
};

// A bundle with one combination of swaps.
struct BundleColumn {
  int bundle = -1, supplier = -1;
  std::vector<int> choice;                  // by part: the swap taken, or -1
  std::int64_t price = 0;                   // swaps included
  std::int64_t useless_credit = 0;          // for parts that serve nothing and may be left out
  std::vector<std::array<int, 2>> useless;  // those parts, with their choice
  std::int64_t most = 0;
  std::vector<std::array<int, 2>> groups;  // group, position in its columns
  std::int64_t tie = 0;                    // with every part there
  double least_tie = 0;                    // scaled, without the useless parts
};

struct SupplierState {
  bool used = false;
  int bracket = -1;
  std::int64_t from = 0, to = kMostGoods;  // of goods
  double rate = 0;                         // cost of one more minor unit of goods
  double fixed = 0;                        // scaled; less what rounding can take away
  double slack = 0;                        // scaled: how far the line may lie below the true cost
  std::int64_t tie = 0;
  double scaled_tie = 0;
};

struct ExactModel {
  const PurchaseProblem* problem = nullptr;
  std::vector<int> family;
  Measure measure;
  std::vector<NeedGroup> groups;
  std::vector<BundleColumn> columns;
  std::vector<std::vector<SupplierState>> suppliers;
  std::vector<std::vector<int>> columns_of;  // by supplier
};

// nullopt with `why` when the problem is outside what the search handles (a group with too many states, too
// many combinations of swaps). `impossible` is set when some need has no serving product under this family.
struct ModelAnswer {
  std::optional<ExactModel> model;
  bool impossible = false;
  std::string why;
};
// Cut rules are those of a CutCase.
ModelAnswer arrange(const PurchaseProblem& problem, const std::vector<int>& family, const Measure& measure = {});

// Goods value of a plan by supplier.
std::vector<std::int64_t> goods_of(const PurchaseProblem& problem, const Plan& plan);

// What one lot of a pack adds to the tie, and what is saved where a bundle's part is changed.
std::int64_t tie_of_lot(const ExactModel& model, int pack);
std::int64_t tie_saved(const ExactModel& model, int bundle, int part, int choice);

}  // namespace teetally
