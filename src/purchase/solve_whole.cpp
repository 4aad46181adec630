// The cheapest plan that can also be cut. Total length is a relaxation of cutting: an engine solves it, the plan's
// coils are tried, and what cannot be cut becomes a rule that every cuttable plan keeps and this one breaks.
// Every bound on the way is true for cuttable plans as well, so the first plan that can be cut is the cheapest.
#include <algorithm>

#include "purchase/cut/cutting.h"
#include "purchase/cut/mend.h"
#include "purchase/solver.h"
#include "teetally/base/stopwatch.h"

namespace teetally {
namespace {

constexpr std::int64_t kThoroughSteps = 400'000, kQuickSteps = 4'000;
constexpr std::size_t kManyPieces = 2'000;
constexpr double kNearEnough = 1e-4;
constexpr std::int64_t kMostMoreJoins = 6, kMostMoreCoils = 3;

struct Tried {
  Cuttable cuttable = Cuttable::yes;
  std::optional<Plan> plan;  // with its joins, when it can be cut
  std::vector<LaidCoil> coils;
  std::vector<CutRule> rules;  // that it breaks
};

class Whole {
 public:
  Whole(const Engine& engine, const PurchaseProblem& problem, const SolveWishes& wishes)
      : engine_(engine), problem_(problem), wishes_(wishes), limit_(Stopwatch{}, wishes.seconds, wishes.stop) {
    std::size_t pieces = 0;
    for (const auto& of : problem.pieces) pieces += of.size();
    large_ = pieces > kManyPieces;
    if (!wishes.start) return;
    if (!offer(*wishes.start)) repair(*wishes.start);
  }

  Solved run() {
    Solved last;
    for (;;) {
      if (rounds_++ > 0 && limit_.left() <= 0) break;
      last = solve_total();
      if (last.infeasible && wishes_.below) bound_ = std::max(bound_, *wishes_.below);
      if (last.infeasible && !best_) return finished(last);
      if (!last.plan) break;
      bound_ = std::max(bound_, last.lower_bound);
      if (rounds_ == 1) least_uncut_ = last.lower_bound;
      Tried tried = try_cutting(*last.plan, kThoroughSteps);
      if (tried.plan) {
        take(std::move(*tried.plan), std::move(tried.coils));
        return finished(last);
      }
      if (best_ && best_rank_->cost <= bound_) return finished(last);
      if (tried.rules.empty() || rounds_ < 3 || rounds_ % 4 == 0) repair(*last.plan);
      if (best_ && best_rank_->cost <= bound_) return finished(last);
      if (tried.rules.empty() || (large_ && near_enough())) break;
      for (CutRule& rule : tried.rules) problem_.cut_rules.push_back(std::move(rule));
    }
    return finished(last);
  }

 private:
  // An engine that gave up early from the plan at hand is asked again without it: CBC has stopped so, unproven and far
  // from its limits, one minor unit above the optimum.
  Solved solve_total() {
    Solved solved = engine_.solve(problem_, wishes_with(best_));
    nodes_ += solved.nodes;
    floating_ = floating_ || solved.floating;
    if (solved.proven || solved.infeasible || !best_ || large_ || wishes_.below || limit_.over()) return solved;
    Solved again = engine_.solve(problem_, wishes_with(std::nullopt));
    nodes_ += again.nodes;
    floating_ = floating_ || again.floating;
    return again.plan && again.proven ? again : solved;
  }

  SolveWishes wishes_with(const std::optional<Plan>& start) const {
    return {limit_.left(), start, wishes_.stop, wishes_.below, wishes_.start_is_near && (start || wishes_.below)};
  }

  Solved finished(Solved last) {
    last.nodes = nodes_;
    last.rests_on += "; cut list checked piece by piece";
    if (!best_) {
      if (!last.infeasible) last.plan.reset();
      return last;
    }
    const bool same = last.plan && rank(problem_, *last.plan) == best_rank_;
    last.plan = best_;
    last.coils = std::move(best_coils_);
    last.infeasible = false;
    last.lower_bound = std::min(bound_, best_rank_->cost);
    last.least_uncut = least_uncut_;
    last.ties_settled = same && last.ties_settled;
    last.proven = last.lower_bound == best_rank_->cost;
    last.floating = floating_;  // the bound is the best of all rounds
    return last;
  }

  Tried try_cutting(Plan plan, std::int64_t steps) const {
    Tried tried;
    std::vector<std::int64_t> joins(plan.joins.size(), 0);
    for (const Cutting& cutting : cuttings_of(problem_, plan)) {
      const CutAnswer answer = cut(cutting.task, steps);
      if (answer.cuttable == Cuttable::no) tried.rules.push_back(rule_against(cutting, answer));
      if (answer.cuttable == Cuttable::yes) {
        auto coils = lay_coils(problem_, cutting, answer.groups, joins);
        if (coils) {
          tried.coils.insert(tried.coils.end(), coils->begin(), coils->end());
          continue;
        }
      }
      tried.cuttable = answer.cuttable == Cuttable::no ? Cuttable::no : Cuttable::unknown;
    }
    if (tried.cuttable != Cuttable::yes || !tried.rules.empty()) return tried;
    plan.joins = joins;
    tried.plan = std::move(plan);
    return tried;
  }

  // Of a large order that further rules would hardly make cheaper.
  bool near_enough() const {
    return best_ &&
           static_cast<double>(best_rank_->cost - bound_) <= kNearEnough * static_cast<double>(best_rank_->cost);
  }

  bool offer(const Plan& plan) {
    Tried tried = try_cutting(plan, kQuickSteps);
    if (!tried.plan) return false;
    return take(std::move(*tried.plan), std::move(tried.coils));
  }

  bool take(Plan plan, std::vector<LaidCoil> coils) {
    std::optional<Rank> found = rank(problem_, plan);
    if (!found && buy_couplings(plan)) found = rank(problem_, plan);
    if (!found) return false;
    if (best_rank_ && *best_rank_ <= *found) return true;
    best_rank_ = found;
    best_ = std::move(plan);
    best_coils_ = std::move(coils);
    return true;
  }

  // Adds the cheapest packs of couplings until every join has one.
  bool buy_couplings(Plan& plan) const {
    for (const JoinOffer& join : problem_.joins) {
      for (std::int64_t i = 0; i < join.most && !allot(problem_, plan); ++i) {
        int best = -1;
        std::int64_t least = 0;
        for (const ServingOption& serving : problem_.servings) {
          if (serving.need != join.need) continue;
          for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
            const PackOffer& offer = problem_.packs[p];
            if (offer.product != serving.product || plan.lots[p] >= offer.most) continue;
            const std::int64_t to = std::max(offer.prices.front().from, plan.lots[p] + 1);
            const std::int64_t price = *price_of_lots(offer, to) - *price_of_lots(offer, plan.lots[p]);
            if (best < 0 || price < least) best = static_cast<int>(p), least = price;
          }
        }
        if (best < 0) break;
        plan.lots[best] = std::max(problem_.packs[best].prices.front().from, plan.lots[best] + 1);
      }
    }
    return allot(problem_, plan).has_value();
  }

  // Cuttable plans near one that is not: with more coils for every set of needs; for orders that are not large also
  // with more joins, or with more of one coil.
  void repair(const Plan& plan) {
    if (limit_.over() && best_) return;
    if (const auto more = mended(problem_, plan, limit_)) offer(*more);
    if (large_ || limit_.over()) return;
    for (std::size_t j = 0; j < plan.joins.size(); ++j) {
      Plan joined = plan;
      for (std::int64_t more = 1; more <= kMostMoreJoins && joined.joins[j] < problem_.joins[j].most; ++more) {
        ++joined.joins[j];
        if (offer(joined) || limit_.left() <= 0) break;
      }
    }
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
      const PackOffer& offered = problem_.packs[p];
      if (!cut_from(offered.product)) continue;
      Plan more = plan;
      for (std::int64_t i = 0; i < kMostMoreCoils && more.lots[p] < offered.most; ++i) {
        more.lots[p] = std::max(offered.prices.front().from, more.lots[p] + 1);
        if (offer(more) || limit_.left() <= 0) break;
      }
    }
  }

  bool cut_from(int product) const {
    return std::any_of(problem_.servings.begin(), problem_.servings.end(), [&](const ServingOption& serving) {
      return serving.product == product && !problem_.pieces[serving.need].empty();
    });
  }

  const Engine& engine_;
  PurchaseProblem problem_;
  const SolveWishes& wishes_;
  TimeLimit limit_;
  std::optional<Plan> best_;
  std::optional<Rank> best_rank_;
  std::vector<LaidCoil> best_coils_;
  std::int64_t bound_ = 0, least_uncut_ = 0, nodes_ = 0;
  bool floating_ = false;
  int rounds_ = 0;
  bool large_ = false;  // so many pieces that only the plainest repair is tried
};

}  // namespace

Solved solve_whole(const Engine& engine, const PurchaseProblem& problem, const SolveWishes& wishes) {
  const bool cut = std::any_of(problem.pieces.begin(), problem.pieces.end(), [](const auto& p) { return !p.empty(); });
  if (!cut) {
    Solved solved = engine.solve(problem, wishes);
    solved.least_uncut = solved.lower_bound;
    return solved;
  }
  return Whole(engine, problem, wishes).run();
}

}  // namespace teetally
