#pragma once
// What decides between plans of equal cost - suppliers, then packs, then pieces, then lengths, as in Rank - as one
// whole number, and the steps in which the exact search counts cost and that number together. The weights come from
// limits that no plan within a given cost passes, so that a lower number always means the better rank.
#include <compare>
#include <cstdint>

#include "purchase/plan.h"
#include "purchase/problem.h"

namespace teetally {

struct TieWeights {
  std::int64_t supplier = 0, pack = 0, piece = 0;
  std::int64_t length = 0;  // of one `unit`
  std::int64_t unit = 1;    // tenths of a millimetre
  std::int64_t most = 0;    // no plan within the cost has more; zero, as the weights, where the numbers grow too large
  bool decide() const { return most > 0; }
};
TieWeights tie_weights(const PurchaseProblem& problem, std::int64_t most_cost);

// Lower is better. Nothing ranks below a tie of zero.
struct Worth {
  std::int64_t cost = kMostGoods;
  std::int64_t tie = 0;
  auto operator<=>(const Worth&) const = default;
};

// Steps are whole numbers held in doubles, far below 2^53, so that their sums and minima are exact.
struct Measure {
  TieWeights ties;
  double minor = 1024;  // steps of one minor unit; zero where amounts are too large for steps
  double tie = 0;       // steps of one of `ties`; all ties together stay below one minor unit

  // Goods at a rate: at most, and at least, what they come to.
  double goods(std::int64_t amount, double rate) const;
  double goods_up(std::int64_t amount, double rate) const;
  double tie_down(std::int64_t amount) const;
  double tie_up(std::int64_t amount) const;
  // What so much of a product adds to the tie.
  std::int64_t tie_of(const Product& product, std::int64_t amount) const;
  Worth worth(const Rank& rank) const;
  // A bound above this leaves no plan that is better.
  double reach(const Worth& best) const;
  // No plan that is cheaper has more steps.
  double cheaper(const Worth& best) const;
  // A bound on cost alone, raised to the next minor unit.
  double whole(double steps) const;
  // The least cost of anything of so many steps.
  std::int64_t cost_of(double steps) const;
};
// `most_cost`: of a plan that is known; kMostGoods when none is.
Measure measure_of(const PurchaseProblem& problem, std::int64_t most_cost);
// The same without what decides between equal costs.
Measure cost_alone(const Measure& measure);

}  // namespace teetally
