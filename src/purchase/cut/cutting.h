#pragma once
// The cutting side of a plan: needs of tubing that share coils make one CutTask each; the answers become laid
// coils, or rules that every plan that can be cut keeps.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "purchase/cut/task.h"
#include "purchase/plan.h"

namespace teetally {

// One cut: a length for a piece of a need (`piece` is an index into PurchaseProblem::pieces[need]).
struct LaidCut {
  int need = -1, piece = -1;
  std::int64_t length = 0;
};
struct LaidCoil {
  int product = -1;    // or
  int site_need = -1;  // a coil that the site has, for this need
  std::int64_t length = 0;
  std::vector<LaidCut> cuts;  // in cutting order
};

struct CoilSource {
  int product = -1, site_need = -1;
  std::int64_t count = 0;
};
// Needs that may share coils under the plan's families.
struct Cutting {
  std::vector<int> needs;
  CutTask task;
  std::vector<std::vector<CoilSource>> sources;         // by kind of coil: the plan's coils
  std::vector<std::vector<CountTerm>> terms;            // by kind of coil: what counts such coils; none for the site's
  std::vector<std::vector<std::pair<int, int>>> names;  // by kind of piece: need, index into its pieces
  std::vector<int> joins;                               // indices into PurchaseProblem::joins
  std::vector<std::pair<int, int>> when;                // families it rests on
};
std::vector<Cutting> cuttings_of(const PurchaseProblem& problem, const Plan& plan);

// The coils with their cuts, totals laid into what is left of them; adds the joins made to `joins`. Nullopt when
// totals do not fit.
std::optional<std::vector<LaidCoil>> lay_coils(const PurchaseProblem& problem, const Cutting& cutting,
                                               const std::vector<CutGroup>& groups, std::vector<std::int64_t>& joins);

// What every cuttable plan keeps and the plan of the cutting, whose task cannot be cut, does not.
CutRule rule_against(const Cutting& cutting, const CutAnswer& answer);

// Each piece's length with its need's allowance in proportion. The lengths add up to the need and what the site has;
// what rounding leaves goes to the longest pieces, a tenth of a millimetre each.
struct NeededPiece;
struct Need;
std::vector<std::int64_t> cut_lengths(const Need& need);

}  // namespace teetally
