// Whole packs near a relaxation: what it buys whole is kept but for a few of the largest packs, and what is then
// lacking of each need is covered as cheaply as its packs can, by a table over the amount.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "purchase/bulk/view.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostCells = 400'000;  // of the table; beyond, amounts are rounded to cells on the safe side
constexpr std::int64_t kCellsBack = 40'000;   // bought anew where that is more than two of the largest packs
constexpr double kLeastGoods = 0.5;           // less is no order

std::int64_t ceil_div(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

struct PackChoice {
  int pack = -1;
  std::int64_t content = 0, most = 0;
  double price = 0;
};

// Whether another one holds as much for less.
bool is_beaten(const std::vector<PackChoice>& choices, std::size_t c) {
  for (std::size_t i = 0; i < choices.size(); ++i) {
    const PackChoice &a = choices[i], &b = choices[c];
    if (a.content < b.content || a.price > b.price || i == c || a.most < b.most) continue;
    if (a.content > b.content || a.price < b.price || i < c) return true;
  }
  return false;
}

// The cheapest lots that hold at least `amount`; empty when there are none. By choice.
std::vector<std::int64_t> cheapest_cover(const std::vector<PackChoice>& choices, std::int64_t amount) {
  std::int64_t unit = 0;
  for (const PackChoice& choice : choices) unit = std::gcd(unit, choice.content);
  if (unit == 0) return {};
  unit = std::max(unit, ceil_div(amount, kMostCells));
  const auto cells = static_cast<std::size_t>(ceil_div(amount, unit));
  std::vector<double> cost(cells + 1, std::numeric_limits<double>::infinity());
  std::vector<int> last(cells + 1, -1);
  cost[0] = 0;
  for (std::size_t c = 0; c < choices.size(); ++c) {
    const auto step = static_cast<std::size_t>(choices[c].content / unit);
    if (step == 0 || is_beaten(choices, c)) continue;
    for (std::size_t v = 1; v <= cells; ++v) {
      const double with = cost[v > step ? v - step : 0] + choices[c].price;
      if (with < cost[v]) cost[v] = with, last[v] = static_cast<int>(c);
    }
  }
  std::vector<std::int64_t> lots(choices.size(), 0);
  for (std::size_t v = cells; v > 0;) {
    if (last[v] < 0) return {};
    ++lots[static_cast<std::size_t>(last[v])];
    const auto step = static_cast<std::size_t>(choices[static_cast<std::size_t>(last[v])].content / unit);
    v = v > step ? v - step : 0;
  }
  return lots;
}

class Rounding {
 public:
  // Suppliers that are used by less than `least_in` are left out.
  Rounding(const BulkView& view, const BulkAnswer& answer, double least_in, std::int64_t largest_back)
      : view_(view),
        problem_(*view.problem),
        answer_(answer),
        largest_back_(largest_back),
        plan_(empty_plan(problem_)) {
    plan_.family = view.family;
    for (std::size_t s = 0; s < answer.goods.size(); ++s) {
      const double rest = answer.in[s].empty() ? 0 : answer.in[s][0];
      open_.push_back(answer.goods[s] > kLeastGoods && 1 - rest >= least_in);
      rate_.push_back(rate_at(s));
    }
    packs_of_.resize(problem_.needs.size());
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
      const PackOffer& offer = problem_.packs[p];
      for (const int need : view.needs_of[offer.product]) packs_of_[need].push_back(static_cast<int>(p));
    }
  }

  std::optional<Plan> run() {
    keep_whole();
    lacking_ = problem_.needs;
    left_ = bought(problem_, plan_);
    const std::vector<int> order = needs_in_order();
    for (const int need : order) serve(need);
    for (const int need : order) {
      if (lacking_[need] > 0 && !cover(need)) return std::nullopt;
    }
    return std::move(plan_);
  }

 private:
  double rate_at(std::size_t s) const {
    double rate = 1;
    for (std::size_t k = 1; k < view_.states[s].size(); ++k) {
      if (view_.states[s][k].from <= answer_.goods[s] + 1) rate = view_.states[s][k].rate;
    }
    return rate;
  }

  static std::int64_t whole(double amount) { return static_cast<std::int64_t>(std::floor(amount + 1e-6)); }

  void keep_whole() {
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
      const PackOffer& offer = problem_.packs[p];
      const std::int64_t lots = open_[offer.supplier] ? whole(answer_.lots[p]) : 0;
      plan_.lots[p] = lots < offer.prices.front().from ? 0 : std::min(lots, offer.most);
    }
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) {
      const BundleOffer& offer = problem_.bundles[b];
      if (!open_[offer.supplier]) continue;
      plan_.bundles[b].count = std::clamp(whole(answer_.bundles[b]), offer.least, offer.most);
      std::size_t at = 0;
      for (std::vector<std::int64_t>& part : plan_.bundles[b].changed) {
        std::int64_t unchanged = plan_.bundles[b].count;
        for (std::int64_t& times : part) {
          times = at < answer_.changed[b].size() ? std::min(unchanged, whole(answer_.changed[b][at])) : 0;
          unchanged -= times;
          ++at;
        }
      }
    }
    for (std::size_t n = 0; n < packs_of_.size(); ++n) give_back(static_cast<int>(n));
  }

  // A few of the pack that covers most, so that there is something to choose from.
  void give_back(int need) {
    int main = -1;
    std::int64_t largest = 0;
    for (const int p : packs_of_[need]) {
      const PackOffer& offer = problem_.packs[p];
      if (open_[offer.supplier]) largest = std::max(largest, offer.content);
      if (main < 0 || plan_.lots[p] * offer.content > plan_.lots[main] * problem_.packs[main].content) main = p;
    }
    if (main < 0) return;
    const PackOffer& offer = problem_.packs[main];
    const std::int64_t within = std::max(2 * largest, std::min(largest_back_ * largest, kCellsBack * unit_of(need)));
    const std::int64_t back = std::min(plan_.lots[main], ceil_div(within, offer.content));
    plan_.lots[main] = plan_.lots[main] - back < offer.prices.front().from ? 0 : plan_.lots[main] - back;
  }

  std::int64_t unit_of(int need) const {
    std::int64_t unit = 0;
    for (const int p : packs_of_[need]) unit = std::gcd(unit, problem_.packs[p].content);
    return unit;
  }

  // Those with the fewest products first: others can use what they leave.
  std::vector<int> needs_in_order() const {
    std::vector<int> order(problem_.needs.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(),
                     [&](int a, int b) { return packs_of_[a].size() < packs_of_[b].size(); });
    return order;
  }

  // With what is bought already: first what only this need can use.
  void serve(int need) {
    for (const bool alone : {true, false}) {
      for (const ServingOption& serving : problem_.servings) {
        if (serving.need != need || (view_.needs_of[serving.product].size() == 1) != alone) continue;
        const auto& needs = view_.needs_of[serving.product];
        if (std::find(needs.begin(), needs.end(), need) == needs.end()) continue;
        const std::int64_t amount = std::min(left_[serving.product], lacking_[need]);
        left_[serving.product] -= amount;
        lacking_[need] -= amount;
      }
    }
  }

  // What one more lot costs, at the price that lots have reached.
  double price_of_one(int p) const {
    const PackOffer& offer = problem_.packs[p];
    const LotPrice* step = &offer.prices.front();
    for (const LotPrice& price : offer.prices) {
      if (price.from <= plan_.lots[p] + 1) step = &price;
    }
    return (static_cast<double>(step->each) + 1e-3) * rate_[offer.supplier];
  }

  bool cover(int need) {
    serve(need);
    std::vector<int> refused;
    for (int attempt = 0; attempt < 4 && lacking_[need] > 0; ++attempt) {
      std::vector<PackChoice> choices;
      for (const int p : packs_of_[need]) {
        const PackOffer& offer = problem_.packs[p];
        const bool few = plan_.lots[p] + 1 < offer.prices.front().from;
        if (!open_[offer.supplier] || few || std::count(refused.begin(), refused.end(), p) > 0) continue;
        if (plan_.lots[p] < offer.most)
          choices.push_back({p, offer.content, offer.most - plan_.lots[p], price_of_one(p)});
      }
      const std::vector<std::int64_t> lots = cheapest_cover(choices, lacking_[need]);
      if (lots.empty()) return false;
      for (std::size_t c = 0; c < choices.size(); ++c) {
        const std::int64_t more = std::min(lots[c], choices[c].most);
        if (more < lots[c]) refused.push_back(choices[c].pack);
        plan_.lots[choices[c].pack] += more;
        left_[problem_.packs[choices[c].pack].product] += more * choices[c].content;
      }
      serve(need);
    }
    return lacking_[need] <= 0;
  }

  const BulkView& view_;
  const PurchaseProblem& problem_;
  const BulkAnswer& answer_;
  std::int64_t largest_back_;  // so many of the largest pack's contents are bought anew
  Plan plan_;
  std::vector<bool> open_;
  std::vector<double> rate_;
  std::vector<std::vector<int>> packs_of_;
  std::vector<std::int64_t> lacking_, left_;
};

}  // namespace

std::optional<Plan> whole_plan(const BulkView& view, const BulkAnswer& answer) {
  std::optional<Plan> best;
  std::optional<Rank> best_rank;
  for (const double least_in : {0.0, 0.3, 0.9}) {
    for (const std::int64_t largest_back : {2, 20}) {
      std::optional<Plan> plan = Rounding(view, answer, least_in, largest_back).run();
      const std::optional<Rank> found = plan ? rank(*view.problem, *plan) : std::nullopt;
      if (found && (!best_rank || *found < *best_rank)) best_rank = found, best = std::move(plan);
    }
  }
  return best;
}

}  // namespace teetally
