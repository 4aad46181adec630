// Large orders: the relaxation is tight there, and what must be settled is which suppliers are used and in which
// bracket of their terms. That is split on, the lowest bound first; each relaxation is rounded to a plan of whole
// packs.
#include <algorithm>
#include <cmath>
#include <queue>

#include "purchase/bulk/view.h"
#include "purchase/solver.h"

namespace teetally {
namespace {

constexpr std::size_t kMostFamilyChoices = 64;
constexpr std::size_t kMostStates = 60;  // of a supplier: a bit each
constexpr std::int64_t kMostNodes = 100;
constexpr double kNearEnough = 2e-5;  // of the cost: a gap that more nodes would hardly close
constexpr double kIn = 1e-6;          // less is nothing

std::vector<std::vector<int>> family_choices(const PurchaseProblem& problem) {
  std::vector<std::vector<int>> choices{std::vector<int>(problem.families.size(), 0)};
  for (std::size_t s = 0; s < problem.families.size(); ++s) {
    const std::size_t before = choices.size();
    for (int f = 1; f < problem.families[s]; ++f) {
      for (std::size_t i = 0; i < before; ++i) {
        choices.push_back(choices[i]);
        choices.back()[s] = f;
      }
    }
    if (choices.size() > kMostFamilyChoices) return {};
  }
  return choices;
}

struct BulkNode {
  std::size_t view = 0;
  AllowedStates allowed;
  double bound = 0;
  bool split = true;  // false: its bound is final
};
struct DearerNode {
  bool operator()(const BulkNode& a, const BulkNode& b) const { return a.bound > b.bound; }
};

class BulkSearch {
 public:
  BulkSearch(const PurchaseProblem& problem, const SolveWishes& wishes)
      : problem_(problem), limit_(Stopwatch{}, wishes.seconds, wishes.stop) {
    if (wishes.start) take(*wishes.start);
  }

  Solved run() {
    add_roots();
    while (!nodes_.empty()) {
      BulkNode node = nodes_.top();
      if (!node.split || (best_ && node.bound >= cost()) || limit_.over() || enough()) break;
      nodes_.pop();
      look(std::move(node));
    }
    return answer();
  }

 private:
  double cost() const { return static_cast<double>(best_->cost); }

  void take(Plan plan) {
    const std::optional<Rank> found = rank(problem_, plan);
    if (!found || (best_ && *best_ <= *found)) return;
    best_ = found;
    plan_ = std::move(plan);
  }

  void add_roots() {
    const std::vector<std::vector<int>> choices = family_choices(problem_);
    complete_ = !choices.empty();
    for (const std::vector<int>& family : choices) {
      auto view = view_in_bulk(problem_, family, best_ ? best_->cost : kMostGoods);
      if (!view) continue;
      for (const auto& states : view->states) complete_ = complete_ && states.size() <= kMostStates;
      if (!complete_) return;
      nodes_.push({views_.size(), all_allowed(*view), 0, true});
      views_.push_back(std::move(*view));
    }
  }

  void look(BulkNode node) {
    ++looked_at_;
    const BulkView& view = views_[node.view];
    const std::optional<BulkAnswer> relaxed = relax_in_bulk(view, node.allowed);
    if (!relaxed) {
      node.split = false;
      nodes_.push(std::move(node));
      return;
    }
    node.bound = std::max(node.bound, bound_in_bulk(view, node.allowed, relaxed->prices));
    node.bound = std::max(node.bound, whole_bound_in_bulk(view, node.allowed, relaxed->prices));
    if (std::optional<Plan> plan = whole_plan(view, *relaxed)) take(std::move(*plan));
    if (best_ && node.bound >= cost()) return;
    split(std::move(node), *relaxed);
  }

  // The supplier whose mixture of states is furthest from any of them: from the lowest of these states down, and up.
  void split(BulkNode node, const BulkAnswer& relaxed) {
    std::size_t most_mixed = 0;
    double mixture = 0;
    for (std::size_t s = 0; s < relaxed.in.size(); ++s) {
      const double most = *std::max_element(relaxed.in[s].begin(), relaxed.in[s].end());
      if (1 - most > mixture) mixture = 1 - most, most_mixed = s;
    }
    if (mixture <= kIn) return settle(std::move(node), relaxed);
    const std::vector<double>& in = relaxed.in[most_mixed];
    const auto lowest = std::find_if(in.begin(), in.end(), [](double part) { return part > kIn; }) - in.begin();
    push_sides(node, most_mixed, (std::uint64_t{2} << lowest) - 1);
  }

  // Every supplier is in one state already. The bound with whole packs still rises where other states are ruled out: of
  // the supplier with most goods that has others.
  void settle(BulkNode node, const BulkAnswer& relaxed) {
    int largest = -1;
    for (std::size_t s = 0; s < relaxed.goods.size(); ++s) {
      if ((node.allowed[s] & (node.allowed[s] - 1)) == 0) continue;
      if (largest < 0 || relaxed.goods[s] > relaxed.goods[static_cast<std::size_t>(largest)])
        largest = static_cast<int>(s);
    }
    if (largest < 0) {
      node.split = false;
      nodes_.push(std::move(node));
      return;
    }
    const std::vector<double>& in = relaxed.in[static_cast<std::size_t>(largest)];
    const auto state = std::max_element(in.begin(), in.end()) - in.begin();
    push_sides(node, static_cast<std::size_t>(largest), std::uint64_t{1} << state);
  }

  void push_sides(const BulkNode& node, std::size_t supplier, std::uint64_t states) {
    for (const std::uint64_t side : {states, ~states}) {
      BulkNode child = node;
      child.allowed[supplier] &= side;
      if (child.allowed[supplier] != 0) nodes_.push(std::move(child));
    }
  }

  // Counted in nodes, so that the same order comes out on a slower machine.
  bool enough() const {
    if (looked_at_ >= kMostNodes) return true;
    return best_ && !nodes_.empty() && cost() - nodes_.top().bound <= kNearEnough * cost();
  }

  Solved answer() {
    Solved solved;
    solved.nodes = looked_at_;
    solved.rests_on = "our own search for large orders, its bound rounded down";
    solved.plan = std::move(plan_);
    if (!best_) return solved;
    const double bound = !complete_ ? 0 : nodes_.empty() ? cost() : std::min(cost(), nodes_.top().bound);
    solved.lower_bound = std::max<std::int64_t>(0, static_cast<std::int64_t>(std::ceil(bound)));
    solved.proven = solved.lower_bound >= best_->cost;
    return solved;
  }

  const PurchaseProblem& problem_;
  TimeLimit limit_;
  std::optional<Rank> best_;
  std::optional<Plan> plan_;
  std::vector<BulkView> views_;
  std::priority_queue<BulkNode, std::vector<BulkNode>, DearerNode> nodes_;
  std::int64_t looked_at_ = 0;
  bool complete_ = false;  // the nodes hold every plan
};

}  // namespace

Solved solve_in_bulk(const PurchaseProblem& problem, const SolveWishes& wishes) {
  return BulkSearch(problem, wishes).run();
}

}  // namespace teetally
