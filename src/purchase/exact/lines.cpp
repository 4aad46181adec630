#include "purchase/exact/lines.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "purchase/exact/lines_list.h"

namespace teetally {
namespace {

constexpr std::size_t kFewSuppliers = 8;  // below, the search over needs is quicker
constexpr double kMostGoodsHere = 3e8;    // minor units: keeps sums of steps exact
constexpr int kPasses = 4;
constexpr int kFirstRounds = 600, kRounds = 60, kPatience = 8;
constexpr int kMostGuessPolish = 200, kLastPolish = 2000;
constexpr std::int64_t kGuessEach = 20;                            // nodes
constexpr std::int64_t kFewSteps = 30'000, kEndSteps = 3'000'000;  // of sharing out lines, for each set of suppliers

double whole(double value) { return std::floor(value + 0.5); }

class LineSearch {
 public:
  LineSearch(const ExactModel& model, Filler& filler, std::int64_t best, TimeLimit limit)
      : model_(model), filler_(filler), list_(list_lines(model)), best_(best), limit_(limit) {}

  LinesAnswer run() {
    LineNode root = first_node();
    explore(std::move(root), kFirstRounds);
    return std::move(answer_);
  }

 private:
  int suppliers() const { return static_cast<int>(list_.options.size()); }
  double reach() const { return std::min(static_cast<double>(best_ - 1) * kLineSteps, kNever / 4); }
  void leave_open(double bound) {
    answer_.open_bound = std::min(answer_.open_bound, bound / kLineSteps * model_.measure.minor);
  }

  LineNode first_node() const {
    LineNode node;
    node.may.assign(list_.states.size(), true);
    node.liked.assign(list_.states.size(), 0);
    std::vector<std::vector<double>> prices(list_.lines);
    for (const auto& options : list_.cheapest) {
      for (const LineOption& option : options) prices[option.line].push_back(option.price);
    }
    for (std::vector<double>& of_line : prices) {
      std::sort(of_line.begin(), of_line.end());
      node.worth.push_back(of_line[std::min<std::size_t>(2, of_line.size() - 1)] * kLineSteps);
    }
    for (const LineState& state : list_.states) node.priced.push_back(state.rate);
    return node;
  }

  // The bound at the node's worths; `taken` is the best state of each supplier, `value` that of each state.
  double look(const LineNode& node, std::vector<int>& taken, std::vector<double>& value) const {
    double total = 0;
    for (const double worth : node.worth) total += worth;
    for (int s = 0; s < suppliers(); ++s) {
      taken[s] = -1;
      for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
        if (!node.may[k]) continue;
        value[k] = value_of(list_, node, k);
        if (taken[s] < 0 || value[k] < value[taken[s]]) taken[s] = k;
      }
      total += value[taken[s]];
    }
    return total;
  }

  // Moves worths towards lines that nobody takes, and pressures towards thresholds that are missed.
  void step(LineNode& node, const std::vector<int>& taken, double gap, double pace) const {
    std::vector<double> lacking(list_.lines, 1);
    for (int s = 0; s < suppliers(); ++s) {
      for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
        const LineState& state = list_.states[k];
        if (!node.may[k] || !state.used || (k != taken[s] && state.from == 0)) continue;
        double goods = 0;
        for (const LineOption& option : list_.cheapest[s]) {
          if (option.price * node.priced[k] >= node.worth[option.line]) continue;
          goods += option.price;
          if (k == taken[s]) lacking[option.line] -= 1;
        }
        if (state.from == 0) continue;
        const double miss = std::clamp(4 * (state.from - goods) / state.from, -1.0, 1.0);
        node.priced[k] = std::clamp(whole(node.priced[k] - 0.02 * pace * miss * state.rate), 0.0, state.rate);
      }
    }
    double norm = 0;
    for (const double n : lacking) norm += n * n;
    if (norm == 0) return;
    for (int line = 0; line < list_.lines; ++line) {
      node.worth[line] = std::max(0.0, whole(node.worth[line] + pace * gap / norm * lacking[line]));
    }
  }

  // Subgradient rounds. False when nothing cheaper than the best plan is left; else states that cannot be part of
  // anything cheaper are out.
  bool raise(LineNode& node, int rounds, double pace) {
    LineNode at = node;
    std::vector<int> taken(suppliers());
    std::vector<double> value(list_.states.size()), best_value(list_.states.size());
    std::vector<double> liked(list_.states.size(), 0);
    double highest = -kNever;
    int patience = kPatience, counted = 0;
    for (int round = 0; round < rounds && pace > 1e-4; ++round) {
      const double total = look(at, taken, value);
      if (total > reach()) return false;
      if (total > highest) {
        if (total > highest + kLineSteps / 2) patience = kPatience;
        highest = total;
        node.worth = at.worth;
        node.priced = at.priced;
        best_value = value;
      } else if (--patience < 0) {
        patience = kPatience;
        pace *= 0.6;
        at.worth = node.worth;
        at.priced = node.priced;
        continue;
      }
      for (const int k : taken) liked[k] += 1;
      ++counted;
      step(at, taken, std::max(std::min(reach(), highest * 1.003) - total, kLineSteps), pace);
    }
    for (double& times : liked) times /= std::max(1, counted);
    node.liked = std::move(liked);
    ascend(list_, node, kPasses);
    const double ascended = look(node, taken, best_value);
    if (ascended > reach()) return false;
    node.bound = std::max(node.bound, ascended);
    return drop_states(node, best_value, ascended);
  }
  bool drop_states(LineNode& node, const std::vector<double>& value, double bound) const {
    for (int s = 0; s < suppliers(); ++s) {
      double least = kNever;
      for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
        if (node.may[k]) least = std::min(least, value[k]);
      }
      for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
        if (node.may[k] && bound - least + value[k] > reach()) node.may[k] = false;
      }
      if (states_left(list_, node, s) == 0) return false;
    }
    return true;
  }

  // Prices an assignment with the filler that pays. Filler is looked for without regard to how many of each are sold;
  // an order that stays below a threshold for want of them leaves the question open.
  bool take(const LineEnd::Picks& picks) {
    const PurchaseProblem& problem = *model_.problem;
    Plan plan = empty_plan(problem);
    plan.family = model_.family;
    for (const LineOption* option : picks) ++plan.lots[option->pack];
    const std::vector<std::int64_t> bare = goods_of(problem, plan);
    filler_.top_up(plan, bare);
    const std::vector<std::int64_t> filled = goods_of(problem, plan);
    const std::optional<Rank> ranked = rank(problem, plan);
    if (ranked && ranked->cost < best_) {
      best_ = answer_.cost = ranked->cost;
      answer_.plan = std::move(plan);
    }
    for (std::size_t s = 0; s < bare.size(); ++s) {
      if (bare[s] > 0 && filled[s] == bare[s] && filler_could_pay(problem.suppliers[s], bare[s])) return false;
    }
    return ranked.has_value();
  }
  static bool filler_could_pay(const SupplierTerms& terms, std::int64_t goods) {
    const std::int64_t cost = cost_of_order(terms, goods).value_or(kMostGoods);
    return std::any_of(terms.brackets.begin(), terms.brackets.end(), [&](const OrderBracket& bracket) {
      return bracket.from > goods && cost_of_order(terms, bracket.from).value_or(kMostGoods) < cost;
    });
  }

  // Settles every supplier in the state it was in most often, and takes what comes out; thoroughly: when no other state
  // of one supplier makes it cheaper.
  void guess(const LineNode& node, bool thorough) {
    LineNode settled = node;
    for (int s = 0; s < suppliers(); ++s) {
      int most = -1;
      for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
        if (node.may[k] && (most < 0 || node.liked[k] > node.liked[most])) most = k;
      }
      settle(settled, s, most);
    }
    const double cost = press(list_, settled, kNever);
    if (thorough) exchange(node, settled, cost);
    LineEnd end(list_, settled, filler_);
    if (end.bound() <= reach()) take(end.polished(std::min(kMostGuessPolish, list_.lines / 4), limit_));
  }

  void settle(LineNode& node, int s, int k) const {
    for (int other = list_.first[s]; other < list_.first[s + 1]; ++other) node.may[other] = other == k;
  }

  // Puts one supplier after another into another state that the node leaves open, as long as the relaxed cost falls.
  void exchange(const LineNode& node, LineNode& settled, double cost) const {
    for (bool again = true; again && !limit_.over();) {
      again = false;
      for (int s = 0; s < suppliers(); ++s) {
        for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
          if (!node.may[k] || settled.may[k]) continue;
          LineNode other = settled;
          settle(other, s, k);
          const double found = press(list_, other, cost);
          if (found >= cost) continue;
          cost = found;
          settled = std::move(other);
          again = true;
        }
      }
    }
  }

  // Limits from one minor unit above the bound on, until all that could beat the best plan is tried.
  void close(const LineNode& node) {
    LineNode pressed = node;
    press(list_, pressed, reach());
    const bool better = LineEnd(list_, pressed, filler_).bound() >= LineEnd(list_, node, filler_).bound();
    LineEnd end(list_, better ? pressed : node, filler_);
    if (end.bound() > reach()) return;
    bool settled = true;
    if (!try_all(end, kFewSteps, settled)) {
      take(end.polished(kLastPolish, limit_));
      if (!try_all(end, kEndSteps, settled)) settled = false;
    }
    if (!settled && end.bound() <= reach()) leave_open(end.bound());
  }

  // False when steps or time run out; not settled: of some orders it is not known whether filler makes them cheaper.
  bool try_all(LineEnd& end, std::int64_t steps, bool& settled) {
    const auto visit = [&](const LineEnd::Picks& picks) {
      settled = take(picks) && settled;
      return reach();
    };
    for (double budget = kLineSteps; end.bound() <= reach(); budget *= 1.5) {
      const bool last = end.bound() + budget >= reach();
      const bool through = end.all_within(std::min(reach(), end.bound() + budget), steps, visit);
      if (!through || limit_.over()) return false;
      if (last) break;
    }
    return true;
  }

  // The state that is most undecided: first whether a supplier is used at all, then in which bracket.
  int undecided(const LineNode& node) const {
    int chosen = -1;
    double least = kNever;
    for (int s = 0; s < suppliers(); ++s) {
      if (states_left(list_, node, s) < 2) continue;
      for (int k = list_.first[s]; k < list_.first[s + 1]; ++k) {
        if (!node.may[k]) continue;
        const double doubt = std::abs(node.liked[k] - 0.5) + (list_.states[k].used ? 1 : 0);
        if (doubt < least) least = doubt, chosen = k;
      }
    }
    return chosen;
  }

  void explore(LineNode node, int rounds) {
    ++answer_.nodes;
    if (limit_.over()) {
      leave_open(node.bound);
      return;
    }
    if (!raise(node, rounds, rounds == kFirstRounds ? 1.0 : 0.3)) return;
    if (answer_.nodes % kGuessEach == 1) {
      guess(node, answer_.nodes == 1);
      if (answer_.nodes == 1 && !raise(node, kRounds, 0.3)) return;
    }
    const int k = undecided(node);
    if (k < 0) {
      close(node);
      return;
    }
    LineNode with = node, without = std::move(node);
    const int s = list_.states[k].supplier;
    for (int other = list_.first[s]; other < list_.first[s + 1]; ++other) {
      if (other != k) with.may[other] = false;
    }
    without.may[k] = false;
    const bool liked = with.liked[k] >= 0.5;
    explore(liked ? with : without, kRounds);
    explore(std::move(liked ? without : with), kRounds);
  }

  const ExactModel& model_;
  Filler& filler_;
  LineList list_;
  std::int64_t best_;
  TimeLimit limit_;
  LinesAnswer answer_;
};

}  // namespace

bool is_line_list(const ExactModel& model) {
  const PurchaseProblem& problem = *model.problem;
  if (model.suppliers.size() < kFewSuppliers || !model.columns.empty()) return false;
  if (problem.most_suppliers || problem.bundle_wanted) return false;
  const bool plain = std::all_of(problem.packs.begin(), problem.packs.end(), [](const PackOffer& offer) {
    return offer.prices.size() == 1 && offer.prices.front().from == 1;
  });
  if (!plain) return false;
  double goods = 0;
  for (const NeedGroup& group : model.groups) {
    if (group.demand.size() != 1) return false;
    double dearest = 0;
    for (const auto& offers : group.offers) {
      for (const GroupOffer& offer : offers) {
        const bool one_lot =
            offer.runs.size() == 1 && offer.runs[0].first == 1 && offer.brings.units >= group.demand[0];
        if (!one_lot) return false;
        dearest = std::max(dearest, static_cast<double>(offer.runs[0].start));
      }
    }
    goods += dearest;
  }
  return goods < kMostGoodsHere;
}

LineList list_lines(const ExactModel& model) {
  LineList list;
  list.lines = static_cast<int>(model.groups.size());
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    std::vector<LineOption>&cheapest = list.cheapest.emplace_back(), &all = list.options.emplace_back();
    for (std::size_t g = 0; g < model.groups.size(); ++g) {
      LineOption least;
      for (const GroupOffer& offer : model.groups[g].offers[s]) {
        const LineOption option{static_cast<int>(g), offer.pack, static_cast<double>(offer.runs[0].start)};
        if (least.pack < 0 || option.price < least.price) least = option;
        all.push_back(option);
      }
      if (least.pack >= 0) cheapest.push_back(least);
    }
    list.first.push_back(static_cast<int>(list.states.size()));
    for (const SupplierState& state : model.suppliers[s]) {
      list.states.push_back(
          {static_cast<int>(s), state.used, static_cast<double>(state.from), static_cast<double>(state.to),
           std::floor(state.fixed * (kLineSteps / model.measure.minor)), std::floor(state.rate * kLineSteps)});
    }
  }
  list.first.push_back(static_cast<int>(list.states.size()));
  return list;
}

int states_left(const LineList& list, const LineNode& node, int supplier) {
  int left = 0;
  for (int k = list.first[supplier]; k < list.first[supplier + 1]; ++k) left += node.may[k] ? 1 : 0;
  return left;
}

int settled_state(const LineList& list, const LineNode& node, int supplier) {
  int settled = -1;
  for (int k = list.first[supplier]; k < list.first[supplier + 1]; ++k) {
    if (node.may[k] && settled >= 0) return -1;
    if (node.may[k]) settled = k;
  }
  return settled >= 0 && list.states[settled].used ? settled : -1;
}

LinesAnswer solve_lines(const ExactModel& model, Filler& filler, std::int64_t best, TimeLimit limit) {
  return LineSearch(model, filler, best, limit).run();
}

}  // namespace teetally
