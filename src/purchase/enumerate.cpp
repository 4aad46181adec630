// The engine for tiny problems: every count of every offer, every change of every bundle, every choice of
// families. It prunes only by goods that already cost more than the best plan. Slow, and easy to believe.
#include <algorithm>

#include "purchase/solver.h"
#include "teetally/base/stopwatch.h"

namespace teetally {
namespace {

class Enumeration {
 public:
  Enumeration(const PurchaseProblem& problem, const SolveWishes& wishes)
      : problem_(problem), limit_(Stopwatch{}, wishes.seconds, wishes.stop), plan_(empty_plan(problem)) {
    goods_.assign(problem.suppliers.size(), 0);
    if (wishes.start) keep(*wishes.start);
  }

  Solved run() {
    choose_family(0);
    Solved solved;
    solved.rests_on = "trying every count; order re-priced and re-checked in whole minor units";
    solved.plan = best_plan_;
    solved.nodes = nodes_;
    solved.infeasible = !best_ && !stopped_;
    solved.proven = solved.ties_settled = best_ && !stopped_;
    solved.lower_bound = solved.proven ? best_->cost : 0;
    return solved;
  }

 private:
  void keep(const Plan& plan) {
    const std::optional<Rank> found = rank(problem_, plan);
    if (!found || (best_ && *best_ <= *found)) return;
    best_ = found;
    best_plan_ = plan;
  }

  // Goods less the greatest discount: no order costs less.
  bool too_dear() const {
    if (!best_) return false;
    std::int64_t least = 0;
    for (std::size_t s = 0; s < goods_.size(); ++s) {
      std::int64_t most_ppm = 0;
      for (const OrderBracket& bracket : problem_.suppliers[s].brackets) {
        most_ppm = std::max(most_ppm, bracket.discount_ppm);
      }
      least += goods_[s] - rounded_share(most_ppm, goods_[s]);
    }
    return least > best_->cost;
  }

  bool stop() {
    if ((++nodes_ & 1023) == 0 && limit_.over()) stopped_ = true;
    return stopped_;
  }

  void choose_family(std::size_t system) {
    if (system == problem_.families.size()) return choose_pack(0);
    for (int f = 0; f < std::max(1, problem_.families[system]); ++f) {
      plan_.family[system] = f;
      choose_family(system + 1);
    }
  }

  void choose_pack(std::size_t p) {
    if (stop() || too_dear()) return;
    if (p == problem_.packs.size()) return choose_bundle(0);
    const PackOffer& offer = problem_.packs[p];
    for (std::int64_t lots = 0; lots <= offer.most && !stopped_; ++lots) {
      const std::optional<std::int64_t> price = price_of_lots(offer, lots);
      if (!price) continue;
      plan_.lots[p] = lots;
      goods_[offer.supplier] += *price;
      choose_pack(p + 1);
      goods_[offer.supplier] -= *price;
    }
    plan_.lots[p] = 0;
  }

  void choose_bundle(std::size_t b) {
    if (stop() || too_dear()) return;
    if (b == problem_.bundles.size()) return choose_joins(0);
    const BundleOffer& offer = problem_.bundles[b];
    for (std::int64_t count = offer.least; count <= offer.most && !stopped_; ++count) {
      plan_.bundles[b].count = count;
      goods_[offer.supplier] += offer.price * count;
      choose_change(b, 0, 0, count);
      goods_[offer.supplier] -= offer.price * count;
    }
    plan_.bundles[b].count = 0;
  }

  void choose_joins(std::size_t j) {
    if (j == problem_.joins.size() || problem_.cut_rules.empty()) return keep(plan_);
    for (std::int64_t joins = 0; joins <= problem_.joins[j].most && !stop(); ++joins) {
      plan_.joins[j] = joins;
      choose_joins(j + 1);
    }
    plan_.joins[j] = 0;
  }

  // Which choice of which part is made in how many of the bundles; `left` have this part still unchanged.
  void choose_change(std::size_t b, std::size_t part, std::size_t choice, std::int64_t left) {
    const BundleOffer& offer = problem_.bundles[b];
    if (part == offer.parts.size()) return choose_bundle(b + 1);
    if (choice == offer.parts[part].choices.size()) return choose_change(b, part + 1, 0, plan_.bundles[b].count);
    const std::int64_t extra = offer.parts[part].choices[choice].extra;
    for (std::int64_t times = 0; times <= left && !stopped_; ++times) {
      plan_.bundles[b].changed[part][choice] = times;
      goods_[offer.supplier] += extra * times;
      choose_change(b, part, choice + 1, left - times);
      goods_[offer.supplier] -= extra * times;
    }
    plan_.bundles[b].changed[part][choice] = 0;
  }

  const PurchaseProblem& problem_;
  TimeLimit limit_;
  Plan plan_;
  std::vector<std::int64_t> goods_;
  std::optional<Rank> best_;
  std::optional<Plan> best_plan_;
  std::int64_t nodes_ = 0;
  bool stopped_ = false;
};

}  // namespace

Solved solve_by_enumeration(const PurchaseProblem& problem, const SolveWishes& wishes) {
  return Enumeration(problem, wishes).run();
}

}  // namespace teetally
