// The bound that prices give: needs are worth their prices, and each supplier by itself is in the state in which it
// earns most from them (the Lagrangian bound, with the needs' rows in the objective). Packs and bundles stand alone
// then.
#include <algorithm>
#include <limits>

#include "purchase/bulk/worth.h"

namespace teetally {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

class Bounding {
 public:
  Bounding(const BulkView& view, const AllowedStates& allowed, const BulkPrices& prices)
      : view_(view), problem_(*view.problem), allowed_(allowed), prices_(prices), worth_(worth_in_bulk(view, prices)) {}

  double run() {
    for (const std::uint64_t states : allowed_) {
      if (states == 0) return kNever;
    }
    CarefulSum sum;
    for (std::size_t n = 0; n < problem_.needs.size(); ++n) {
      sum.add(prices_.need[n] * static_cast<double>(problem_.needs[n]));
    }
    for (const int r : view_.rules) {
      sum.add(prices_.rule[r] * static_cast<double>(problem_.cut_rules[r].any_of[0].least));
    }
    for (std::size_t j = 0; j < problem_.joins.size(); ++j) {
      const double each = prices_.need[problem_.joins[j].need] - worth_.joins[j];
      sum.add(std::min(0.0, each * static_cast<double>(problem_.joins[j].most)));
    }
    add_suppliers(sum);
    return sum.least();
  }

 private:
  // In this state, with its goods priced at `rate` and the difference to its own rate paid on the goods it must have.
  double in_state(std::size_t supplier, const BulkState& state, double rate) const {
    CarefulSum sum;
    sum.add(state.fixed);
    sum.add((state.rate - rate) * (state.rate >= rate ? state.from : state.to));
    for (const BulkPack& pack : worth_.packs[supplier]) sum.add(least_of(problem_.packs[pack.pack], pack.worth, rate));
    for (const BulkBundle& bundle : worth_.bundles[supplier]) sum.add(least_of(bundle, rate));
    return sum.least();
  }

  // Every price of the goods gives a bound.
  double best_in(std::size_t supplier, const BulkState& state) const {
    const double own = in_state(supplier, state, state.rate);
    return std::max(own,
                    highest([&](double rate) { return in_state(supplier, state, rate); }, 0, 2 * state.rate).value);
  }

  void add_suppliers(CarefulSum& sum) const {
    std::vector<double> gains;  // of counted suppliers: what being used changes
    std::int64_t places = problem_.most_suppliers.value_or(static_cast<int>(problem_.suppliers.size()));
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) {
      double used = kNever;
      for (std::size_t k = 1; k < view_.states[s].size(); ++k) {
        if ((allowed_[s] >> k & 1U) != 0) used = std::min(used, best_in(s, view_.states[s][k]));
      }
      const bool may_rest = (allowed_[s] & 1U) != 0;
      if (may_rest && problem_.suppliers[s].counts) {
        if (used < 0) gains.push_back(used);
        continue;
      }
      sum.add(may_rest ? std::min(0.0, used) : used);
      places -= problem_.suppliers[s].counts ? 1 : 0;
    }
    std::sort(gains.begin(), gains.end());
    for (std::size_t i = 0; i < gains.size() && static_cast<std::int64_t>(i) < places; ++i) sum.add(gains[i]);
  }

  const BulkView& view_;
  const PurchaseProblem& problem_;
  const AllowedStates& allowed_;
  const BulkPrices& prices_;
  BulkWorth worth_;
};

}  // namespace

double bound_in_bulk(const BulkView& view, const AllowedStates& allowed, const BulkPrices& prices) {
  return Bounding(view, allowed, prices).run();
}

}  // namespace teetally
