// The exact engine: for each choice of fit families, a depth-first search over bundle counts and supplier
// states with the message-passing bound, closed at its leaves by complete enumeration of what is left.
#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <numeric>

#include "purchase/exact/bound.h"
#include "purchase/exact/choices.h"
#include "purchase/exact/finish.h"
#include "purchase/exact/largest.h"
#include "purchase/exact/lines.h"
#include "purchase/exact/plans.h"
#include "purchase/exact/pressure.h"
#include "purchase/exact/rough.h"
#include "purchase/exact/rules.h"
#include "purchase/exact/wide_search.h"
#include "purchase/solver.h"
#include "teetally/base/stopwatch.h"

namespace teetally {
namespace {

constexpr std::size_t kLookedAt = 6;
constexpr std::int64_t kShakes = 1'000'000;
constexpr double kMostWideWork = 3e8;  // of a sweep over counts alone
constexpr int kFirstSweeps = 160, kLaterSweeps = 8;
constexpr std::size_t kMostTied = 500;         // nodes put off that can hold equals only
constexpr std::int64_t kSweepsForTies = 400;   // on top of as many as the cost took
constexpr std::int64_t kSweepsForBetter = 40;  // where any plan will do, on top of as many as it took
// Leaves that are open after so much time for them go to CBC: those with too many ways are rare, and mostly easy for
// branch and cut. The longer of the two.
constexpr double kLeafSeconds = 5, kLeafShare = 0.25;
// Orders between those of a household and the large ones (some ten to some hundred plots) hardly end by themselves:
// after so much work CBC looks for a better order for so long; it narrows no gap there.
constexpr double kMostWorkOnMuch = 2e8;
constexpr double kCbcSecondsOnMuch = 20;
const char* const kRestsOn =
    "own exact search, its bound computed in whole steps; order re-priced and re-checked in whole minor units";

class Search {
 public:
  Search(const ExactModel& model, Filler& filler, BestSoFar& best, TimeLimit limit)
      : model_(model),
        best_(best),
        limit_(limit),
        bound_(model),
        plans_(model, filler, limit.share(0.5)),
        most_(most_affordable(model, best)) {}

  // Everything but what is put off. `roots`: as the survey left them, or none.
  void run(std::vector<SearchNode> roots) {
    if (is_wide(model_, most_) && !narrow()) return;
    much_work_ = is_much_work(model_, most_);
    if (roots.empty()) roots = roots_of(model_, bound_, most_);
    for (SearchNode& root : roots) explore(std::move(root), true);
  }

  // What had too many ways may have few enough now that a better plan is known.
  void come_back(TimeLimit limit) {
    limit_ = limit;
    std::sort(put_off_.begin(), put_off_.end(),
              [](const SearchNode& a, const SearchNode& b) { return a.bound < b.bound; });
    for (SearchNode& node : put_off_) {
      const bool over = limit_.over() || (best_.any_will_do && best_.plan);
      if (node.bound > best_.reach() || (!over && finished(node, Effort::full, best_.worth))) continue;
      if (!over && finished(node, Effort::full, {best_.worth.cost, 0}))
        node.bound = std::max(node.bound, best_.measure.reach({best_.worth.cost, 0}) + 1);
      leave_open(node);
    }
    put_off_.clear();
  }

  // What can hold equals only; comes last.
  void settle_ties() {
    settling_ties_ = true;
    most_sweeps_ = 2 * bound_.sweeps() + kSweepsForTies;
    for (SearchNode& node : tied_) {
      if (node.bound <= best_.reach()) explore(std::move(node), false);
    }
    come_back(limit_);
  }

  // Of what is put off.
  double least_put_off() const {
    double least = kNever;
    for (const SearchNode& node : put_off_) least = std::min(least, node.bound);
    return least;
  }

  std::int64_t nodes() const { return nodes_; }
  double open_bound() const { return open_bound_; }
  double open_tie() const { return std::min(open_bound_, open_tie_); }

 private:
  void take(const std::optional<Plans::Found>& found) {
    if (found) best_.take(found->plan, found->worth);
  }

  // Large orders: a split of prices gives a bound, a plan near it, and limits to the counts of bundles. False when that
  // settles the question, or when what is left would take too long: then the bound is all there is.
  bool narrow() {
    const WideLook look = look_wide(model_);
    std::vector<int> suggestion = look.counts;
    for (const auto& states : model_.suppliers) suggestion.push_back(static_cast<int>(states.size()) - 1);
    take(plans_.shake(suggestion, best_.worth, kShakes));
    if (look.bound > best_.reach()) return false;
    for (std::size_t c = 0; c < most_.size(); ++c) {
      if (look.left[c] <= 0) continue;
      most_[c] = static_cast<std::int64_t>(
          std::min(static_cast<double>(most_[c]), std::floor((best_.reach() - look.bound) / look.left[c])));
    }
    if (!is_wide(model_, most_)) return true;
    const double bound = std::max(look.bound, search_counts());
    if (bound <= best_.reach()) open_bound_ = std::min(open_bound_, best_.measure.whole(bound));
    return false;
  }

  // Bundle counts alone, suppliers at their cheapest: a bound, and better plans on the way.
  double search_counts() {
    const WideTask task = wide_task(model_, best_.reach());
    if (work_of_sweep(task) > kMostWideWork) return -kNever;
    const auto propose = [&](std::vector<int> counts) {
      for (const auto& states : model_.suppliers) counts.push_back(static_cast<int>(states.size()) - 1);
      take(plans_.improve(counts, best_.worth));
      return best_.reach();
    };
    const WideAnswer answer = search_wide(task, best_.reach(), propose, limit_);
    nodes_ += answer.nodes;
    return answer.bound;
  }

  // What is left open may hold something cheaper, or nothing but equals.
  void leave_open(const SearchNode& node) {
    double& open = node.bound > best_.cheaper() ? open_tie_ : open_bound_;
    open = std::min(open, node.bound);
  }

  // Only equals can be left in the node, and cost comes first.
  bool put_off_tie(SearchNode& node) {
    if (settling_ties_ || node.bound <= best_.cheaper()) return false;
    if (tied_.size() < kMostTied) {
      tied_.push_back(std::move(node));
    } else {
      leave_open(node);
    }
    return true;
  }

  bool out_of_time() {
    if (!settling_ties_ && much_work_ && bound_.work() > kMostWorkOnMuch) return true;
    return limit_.over() || is_enough() || (settling_ties_ && bound_.sweeps() > most_sweeps_);
  }

  // Any plan will do, and so much has been looked at since one was found.
  bool is_enough() {
    if (!best_.any_will_do || !best_.plan) return false;
    if (found_at_ < 0) found_at_ = bound_.sweeps();
    return bound_.sweeps() > 2 * found_at_ + kSweepsForBetter;
  }

  bool settled(const SearchNode& node) const {
    return std::all_of(node.domains.begin(), node.domains.end(), [](const auto& d) { return d.size() == 1; });
  }

  // With as many suppliers in use as are allowed, the others are out. False when there are already too many.
  bool limit_suppliers(SearchNode& node) const {
    const PurchaseProblem& problem = *model_.problem;
    if (!problem.most_suppliers) return true;
    const std::size_t columns = model_.columns.size();
    int used = 0;
    for (std::size_t s = 0; s < problem.suppliers.size(); ++s) {
      if (problem.suppliers[s].counts && model_.suppliers[s][node.domains[columns + s].front()].used) ++used;
    }
    if (used < *problem.most_suppliers) return true;
    if (used > *problem.most_suppliers) return false;
    for (std::size_t s = 0; s < problem.suppliers.size(); ++s) {
      const std::vector<int>& values = node.domains[columns + s];
      if (!problem.suppliers[s].counts || values.size() < 2 || model_.suppliers[s][values.front()].used) continue;
      std::vector<bool> keep(values.size(), false);
      keep[0] = true;
      bound_.restrict(node, static_cast<int>(columns + s), keep);
    }
    return true;
  }

  // States whose smallest order costs as much as the best plan, the smallest orders of the others included, are
  // out. False when a supplier has none left.
  bool limit_states(SearchNode& node) const {
    const std::size_t columns = model_.columns.size();
    std::vector<std::int64_t> least(model_.suppliers.size(), kMostGoods);
    std::int64_t sum = 0;
    for (std::size_t s = 0; s < least.size(); ++s) {
      for (int a : node.domains[columns + s]) least[s] = std::min(least[s], smallest_order(model_, s, a));
      sum += least[s];
    }
    for (std::size_t s = 0; s < least.size(); ++s) {
      const std::vector<int>& values = node.domains[columns + s];
      std::vector<bool> keep;
      for (int a : values) keep.push_back(sum - least[s] + smallest_order(model_, s, a) <= best_.worth.cost);
      if (std::count(keep.begin(), keep.end(), true) == 0) return false;
      if (std::count(keep.begin(), keep.end(), false) > 0) bound_.restrict(node, static_cast<int>(columns + s), keep);
    }
    return true;
  }

  // Raises the bound while that pays, and tries what it suggests. False when nothing cheaper is left here.
  bool tighten(SearchNode& node, bool first) {
    double last = node.bound;
    const int most = first ? kFirstSweeps : kLaterSweeps;
    for (int i = 0; i < most; ++i) {
      if (!bound_.sweep(node, i % 2 == 0, best_.reach())) return false;
      if (i % 2 == 0) continue;
      take(plans_.improve(node.suggestion, best_.worth));
      if (settled(node) || out_of_time() || (!settling_ties_ && node.bound > best_.cheaper())) break;
      const double gap = best_.reach() - node.bound;
      if (i >= 3 && node.bound - last < 0.03 * gap) break;
      last = node.bound;
    }
    return true;
  }

  void close(SearchNode& node) {
    // Sweeps may have put one more supplier to use, or left only states whose smallest orders are too dear together.
    if (!limit_states(node) || !limit_suppliers(node)) return;
    if (!finished(node, Effort::glance, best_.worth)) put_off_.push_back(std::move(node));
  }

  // Whether nothing better than this is left.
  bool finished(const SearchNode& node, Effort effort, const Worth& than) {
    std::vector<int> values;
    for (const auto& domain : node.domains) values.push_back(domain.front());
    const Finished finished = finish(model_, values, node.pressure, than, effort, limit_);
    if (finished.plan) best_.take(*finished.plan, finished.worth);
    return finished.complete;
  }

  void explore(SearchNode node, bool first) {
    if (put_off_tie(node)) return;
    ++nodes_;
    if (out_of_time()) {
      leave_open(node);
      return;
    }
    if (!limit_states(node) || !limit_suppliers(node)) return;
    if (!first && raise_by_pressure(model_, bound_, node, best_.reach(), false) > best_.reach()) return;
    if (!tighten(node, first)) return;
    if (settled(node)) {
      close(node);
      return;
    }
    if (put_off_tie(node)) return;
    branch(std::move(node));
  }

  // Only variables without any say are open: settles them at their first value.
  void settle_rest(SearchNode& node) const {
    for (std::size_t v = 0; v < node.domains.size(); ++v) {
      std::vector<bool> keep(node.domains[v].size(), false);
      keep[0] = true;
      bound_.restrict(node, static_cast<int>(v), keep);
    }
  }

  // Both sides of a split, a little way down.
  struct Sides {
    std::array<SearchNode, 2> node;
    std::array<bool, 2> open{true, true};
    double score = 0;  // how far the bound rises on both
  };
  Sides look_ahead(const SearchNode& node, const Bound::Split& split) {
    Sides sides;
    const double gap = std::max(best_.reach() - node.bound, 1.0);
    sides.score = 1;
    for (std::size_t i = 0; i < 2; ++i) {
      sides.node[i] = bound_.child(node, split, (i == 0) == split.low_first);
      sides.open[i] = bound_.sweep(sides.node[i], true, best_.reach());
      sides.score *= std::clamp(sides.node[i].bound - node.bound, gap / 1000, gap);
    }
    return sides;
  }

  // One part for each supplier that may have the largest order, the most promising first, and one in which nobody has.
  bool part_by_largest(SearchNode& node) {
    std::vector<Bound::Split> parts = parts_by_largest(model_, node, best_.worth.cost);
    if (parts.empty()) return false;
    for (Bound::Split& part : parts) {
      SearchNode large = bound_.child(node, part, false);
      const bool open = limit_states(large) && bound_.sweep(large, true, best_.reach());
      part.spread = open ? large.bound : kNever;
    }
    std::stable_sort(parts.begin(), parts.end(), [](const auto& a, const auto& b) { return a.spread < b.spread; });
    for (const Bound::Split& part : parts) {
      if (part.spread < kNever) explore(bound_.child(node, part, false), false);
      node = bound_.child(node, part, true);
    }
    explore(std::move(node), false);
    return true;
  }

  // Looks ahead on the most undecided variables, until some in a row do no better, and takes the split that raises the
  // bound most. A side that closes settles its question at once; then the rest is looked at anew.
  void branch(SearchNode node) {
    if (out_of_time()) {
      leave_open(node);
      return;
    }
    if (part_by_largest(node)) return;
    const std::vector<Bound::Split> splits = bound_.splits(node, best_.reach());
    if (splits.empty()) {
      settle_rest(node);
      close(node);
      return;
    }
    Sides chosen;
    std::size_t since = 0;
    for (std::size_t i = 0; i < splits.size() && since < kLookedAt && i < 2 * kLookedAt; ++i, ++since) {
      Sides sides = look_ahead(node, splits[i]);
      if (!sides.open[0] && !sides.open[1]) return;
      if (!sides.open[0] || !sides.open[1]) {
        branch(std::move(sides.node[sides.open[0] ? 0 : 1]));
        return;
      }
      if (sides.score <= chosen.score) continue;
      chosen = std::move(sides);
      since = 0;
    }
    for (SearchNode& side : chosen.node) explore(std::move(side), false);
  }

  const ExactModel& model_;
  BestSoFar& best_;
  TimeLimit limit_;
  bool much_work_ = false;
  Bound bound_;
  Plans plans_;
  std::int64_t nodes_ = 0;
  double open_bound_ = kNever, open_tie_ = kNever;
  bool settling_ties_ = false;
  std::int64_t found_at_ = -1;  // in sweeps
  std::int64_t most_sweeps_ = 0;
  std::vector<std::int64_t> most_;  // by column
  std::vector<SearchNode> put_off_, tied_;
};

bool may_hand_on(const std::vector<CaseModel>& models, const BestSoFar& best) {
  return std::none_of(models.begin(), models.end(),
                      [&](const CaseModel& of) { return begins_otherwise(of.model, best); });
}

// What the best plan is worth by the least bounds that are left open, of cost and of ties.
void conclude(const BestSoFar& best, double open, double open_tie, bool below, Solved& solved) {
  solved.plan = best.plan;
  solved.proven = best.plan && open > best.cheaper();
  solved.ties_settled = solved.proven && best.measure.ties.decide() && open_tie > best.reach();
  solved.infeasible = !best.plan && open >= kNever;
  if (solved.proven || (solved.infeasible && below)) {
    solved.lower_bound = best.worth.cost;
  } else if (open < kNever) {
    solved.lower_bound = best.measure.cost_of(open);
  }
}

// Every case in turn, under one best plan; what is put off waits until all of them are known.
Solved search_cases(const PurchaseProblem& problem, const CaseModels& models, const SolveWishes& wishes,
                    BestSoFar& best, TimeLimit limit, double seconds_for_leaves) {
  Filler filler(problem);
  std::vector<SurveyedCase> cases = survey(models.models, filler, best, limit, wishes.start_is_near);
  Solved solved;
  solved.rests_on = kRestsOn;
  double open = kNever, open_tie = kNever;
  std::deque<Search> searches;
  std::vector<const CaseModel*> of_search;
  std::vector<std::pair<double, std::size_t>> order;  // of what is put off: bound, search
  const auto look = [&](std::size_t i, const auto& how) {
    const Worth before = best.worth;
    how(searches[i]);
    if (best.worth < before) best.plan->joins = of_search[i]->joins;
  };
  for (SurveyedCase& open_case : cases) {
    const CaseModel& of = *open_case.of;
    const ExactModel& model = of.model;
    if (is_line_list(model)) {
      LinesAnswer lines = solve_lines(model, filler, best.worth.cost, limit);
      const auto ranked = lines.plan ? rank(problem, *lines.plan) : std::nullopt;
      if (ranked) best.take(*std::move(lines.plan), best.measure.worth(*ranked));
      solved.nodes += lines.nodes;
      open = std::min(open, best.measure.whole(lines.open_bound));
      open_tie = -kNever;  // it looks at cost alone
      continue;
    }
    const std::size_t i = searches.size();
    of_search.push_back(&of);
    searches.emplace_back(model, filler, best, limit);
    look(i, [&](Search& search) { search.run(std::move(open_case.roots)); });
    order.emplace_back(searches[i].least_put_off(), i);
  }
  std::sort(order.begin(), order.end());
  const TimeLimit for_leaves(Stopwatch{}, std::min(seconds_for_leaves, limit.left()), wishes.stop);
  for (const auto& [bound, i] : order) look(i, [&](Search& search) { search.come_back(for_leaves); });
  for (const auto& [bound, i] : order) look(i, [](Search& search) { search.settle_ties(); });
  for (const Search& search : searches) {
    solved.nodes += search.nodes();
    open = std::min(open, search.open_bound());
    open_tie = std::min(open_tie, search.open_tie());
  }
  conclude(best, open, open_tie, wishes.below.has_value(), solved);
  return solved;
}

}  // namespace

Solved solve_exactly(const PurchaseProblem& problem, const SolveWishes& wishes) {
  const Stopwatch watch;
  const bool least_wanted = std::any_of(problem.bundles.begin(), problem.bundles.end(),
                                        [](const BundleOffer& offer) { return offer.least > 0; });
  const std::vector<std::vector<int>> choices = family_choices(problem);
  if (choices.empty() || least_wanted) return solve_beyond_exact(problem, wishes);
  BestSoFar best;
  const auto start = wishes.start ? rank(problem, *wishes.start) : std::nullopt;
  best.measure = measure_of(problem, wishes.below.value_or(start ? start->cost : kMostGoods));
  if (wishes.below) {
    best.worth = {*wishes.below, 0};
    best.measure = cost_alone(best.measure);
    best.any_will_do = true;
  }
  if (start) best.take(*wishes.start, best.measure.worth(*start));
  std::optional<CaseModels> models = model_cases(problem, choices, best.measure);
  if (!models) return solve_beyond_exact(problem, wishes);
  const bool much_work = is_much_work(models->models, best);
  Solved rough;
  if (much_work && !wishes.below && !wishes.start_is_near) rough = rough_look(problem, wishes, best);
  if (is_near_enough(problem, rough)) return rough;
  const bool hand_on = may_hand_on(models->models, best) && !wishes.below;
  const double for_leaves = hand_on ? std::max(kLeafSeconds, kLeafShare * wishes.seconds) : wishes.seconds;
  const TimeLimit limit(watch, wishes.seconds, wishes.stop);
  const Solved solved =
      with_better_bound(problem, search_cases(problem, *models, wishes, best, limit, for_leaves), rough);
  SolveWishes rest = wishes;
  rest.seconds = std::min(limit.left(), much_work ? kCbcSecondsOnMuch : wishes.seconds);
  if (!hand_on || solved.proven || solved.infeasible || rest.seconds <= 0) return solved;
  return go_on_with_cbc(problem, rest, solved);
}

}  // namespace teetally
