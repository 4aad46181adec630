// A plan to start from: cover what is lacking by the offer that is cheapest for its use, again and again; once
// for all suppliers and once for each alone, for every choice of families (up to a limit).
#include <algorithm>
#include <functional>
#include <queue>
#include <tuple>

#include "purchase/solver.h"

namespace teetally {
namespace {

constexpr int kMostFamilyChoices = 64;

bool fits(const ServingOption& serving, const std::vector<int>& family) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(),
                     [&](const FamilyCondition& c) { return c.allowed[family[c.system]]; });
}

// Offers, packs first, then bundles: where they are sold and what they bring.
struct Stalls {
  std::vector<std::vector<std::size_t>> by_supplier, by_product;
};

int supplier_of(const PurchaseProblem& problem, std::size_t offer) {
  const std::size_t packs = problem.packs.size();
  return offer < packs ? problem.packs[offer].supplier : problem.bundles[offer - packs].supplier;
}

Stalls stalls_of(const PurchaseProblem& problem) {
  Stalls stalls;
  stalls.by_supplier.resize(problem.suppliers.size());
  stalls.by_product.resize(problem.products.size());
  const std::size_t packs = problem.packs.size();
  for (std::size_t p = 0; p < packs; ++p) stalls.by_product[problem.packs[p].product].push_back(p);
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    for (const BundlePart& part : problem.bundles[b].parts) stalls.by_product[part.product].push_back(packs + b);
  }
  for (std::size_t offer = 0; offer < packs + problem.bundles.size(); ++offer) {
    stalls.by_supplier[supplier_of(problem, offer)].push_back(offer);
  }
  return stalls;
}

class Cover {
 public:
  Cover(const PurchaseProblem& problem, const Stalls& stalls, const std::vector<int>& family,
        const std::vector<bool>& open)
      : problem_(problem), stalls_(stalls), open_(open), plan_(empty_plan(problem)), lacking_(problem.needs) {
    plan_.family = family;
    needs_of_.resize(problem.products.size());
    products_of_.resize(problem.needs.size());
    for (const ServingOption& serving : problem.servings) {
      if (!fits(serving, family)) continue;
      needs_of_[serving.product].push_back(serving.need);
      products_of_[serving.need].push_back(serving.product);
    }
    set_worth();
  }

  std::optional<Plan> run() {
    if (problem_.bundle_wanted && !take_wanted()) return std::nullopt;
    look_at_all();
    while (std::any_of(lacking_.begin(), lacking_.end(), [](std::int64_t n) { return n > 0; })) {
      if (!take_best()) return std::nullopt;
    }
    top_up();
    return plan_;
  }

 private:
  // What one unit of a need is worth: its cheapest loose price, or 1 when it is sold in bundles only.
  void set_worth() {
    worth_.assign(problem_.needs.size(), 0);
    for (const PackOffer& offer : problem_.packs) {
      const LotPrice& price = offer.prices.back();
      const double each = (static_cast<double>(price.each) + 0.01) / static_cast<double>(offer.content);
      for (int need : needs_of_[offer.product]) {
        if (worth_[need] == 0 || each < worth_[need]) worth_[need] = each;
      }
    }
    for (double& worth : worth_) {
      if (worth == 0) worth = 1;
    }
  }

  std::int64_t useful(int product) const {
    std::int64_t sum = 0;
    for (int need : needs_of_[product]) sum += lacking_[need];
    return sum;
  }

  double value_of(int product, std::int64_t amount) const {
    double value = 0;
    for (int need : needs_of_[product]) {
      const std::int64_t taken = std::min(amount, lacking_[need]);
      value += worth_[need] * static_cast<double>(taken);
      amount -= taken;
    }
    return value;
  }

  void serve(int product, std::int64_t amount) {
    for (int need : needs_of_[product]) {
      const std::int64_t taken = std::min(amount, lacking_[need]);
      if (taken == 0) continue;
      lacking_[need] -= taken;
      amount -= taken;
      changed_.insert(changed_.end(), products_of_[need].begin(), products_of_[need].end());
    }
  }

  bool take_wanted() {
    for (int b : problem_.wanted_bundles) {
      if (problem_.bundles[b].most < 1 || !open_[problem_.bundles[b].supplier]) continue;
      take_bundle(b);
      return true;
    }
    return false;
  }

  void take_bundle(int b) {
    ++plan_.bundles[b].count;
    for (const BundlePart& part : problem_.bundles[b].parts) serve(part.product, part.content);
  }

  // An offer (packs first, then bundles) at its best price per value; `looks` tells whether it still holds.
  struct Choice {
    double price_per_value = 0;
    std::size_t offer = 0;
    std::int64_t lots = 0;
    int looks = 0;
    bool operator>(const Choice& other) const {
      return std::tie(price_per_value, offer) > std::tie(other.price_per_value, other.offer);
    }
  };

  static void consider(std::optional<Choice>& best, double value, std::int64_t price, Choice choice) {
    if (value <= 0) return;
    choice.price_per_value = (static_cast<double>(price) + 0.01) / value;
    if (!best || choice.price_per_value < best->price_per_value) best = choice;
  }

  std::optional<Choice> best_of_pack(int p) const {
    std::optional<Choice> best;
    const PackOffer& offer = problem_.packs[p];
    const std::int64_t wanted = useful(offer.product);
    if (wanted == 0) return best;
    const std::int64_t have = plan_.lots[p];
    const std::int64_t fewest = std::max<std::int64_t>(1, offer.prices.front().from - have);
    for (const std::int64_t lots : {wanted / offer.content, (wanted + offer.content - 1) / offer.content}) {
      const std::int64_t more = std::min(std::max(lots, fewest), offer.most - have);
      if (more < fewest) continue;
      const std::int64_t price = *price_of_lots(offer, have + more) - *price_of_lots(offer, have);
      consider(best, value_of(offer.product, more * offer.content), std::max<std::int64_t>(0, price), {0, 0, more, 0});
    }
    return best;
  }

  std::optional<Choice> best_of_bundle(int b) const {
    std::optional<Choice> best;
    const BundleOffer& offer = problem_.bundles[b];
    if (plan_.bundles[b].count >= offer.most) return best;
    double value = 0;
    for (const BundlePart& part : offer.parts) value += value_of(part.product, part.content);
    consider(best, value, offer.price, {0, 0, 1, 0});
    return best;
  }

  void look_at(std::size_t offer) {
    const std::size_t packs = problem_.packs.size();
    std::optional<Choice> best =
        offer < packs ? best_of_pack(static_cast<int>(offer)) : best_of_bundle(static_cast<int>(offer - packs));
    ++looks_[offer];
    if (!best) return;
    best->offer = offer;
    best->looks = looks_[offer];
    queue_.push(*best);
  }

  void look_at_all() {
    looks_.assign(problem_.packs.size() + problem_.bundles.size(), 0);
    for (std::size_t s = 0; s < open_.size(); ++s) {
      if (!open_[s]) continue;
      for (const std::size_t offer : stalls_.by_supplier[s]) look_at(offer);
    }
    changed_.clear();
  }

  // Only what serves a need that changed can be worth another price.
  void look_again() {
    std::sort(changed_.begin(), changed_.end());
    changed_.erase(std::unique(changed_.begin(), changed_.end()), changed_.end());
    std::vector<std::size_t> offers;
    for (int product : changed_) {
      for (const std::size_t offer : stalls_.by_product[product]) {
        if (open_[supplier_of(problem_, offer)]) offers.push_back(offer);
      }
    }
    std::sort(offers.begin(), offers.end());
    offers.erase(std::unique(offers.begin(), offers.end()), offers.end());
    for (const std::size_t offer : offers) look_at(offer);
    changed_.clear();
  }

  bool take_best() {
    while (!queue_.empty() && queue_.top().looks != looks_[queue_.top().offer]) queue_.pop();
    if (queue_.empty()) return false;
    const Choice best = queue_.top();
    if (best.offer < problem_.packs.size()) {
      const PackOffer& offer = problem_.packs[best.offer];
      plan_.lots[best.offer] += best.lots;
      serve(offer.product, best.lots * offer.content);
    } else {
      take_bundle(static_cast<int>(best.offer - problem_.packs.size()));
    }
    look_again();
    look_at(best.offer);
    return true;
  }

  std::int64_t goods_of(int supplier, bool& placed) const {
    std::int64_t goods = 0;
    for (const std::size_t offer : stalls_.by_supplier[supplier]) {
      const std::size_t packs = problem_.packs.size();
      const std::int64_t count = offer < packs ? plan_.lots[offer] : plan_.bundles[offer - packs].count;
      if (count == 0) continue;
      goods +=
          offer < packs ? *price_of_lots(problem_.packs[offer], count) : problem_.bundles[offer - packs].price * count;
      placed = true;
    }
    return goods;
  }

  // Fills an order that is too small to be delivered with one more lot at a time of whatever is cheapest.
  void top_up() {
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) {
      if (!open_[s]) continue;
      bool placed = false;
      std::int64_t goods = goods_of(static_cast<int>(s), placed);
      while (placed && !cost_of_order(problem_.suppliers[s], goods)) {
        if (!add_cheapest(static_cast<int>(s))) break;
        goods = goods_of(static_cast<int>(s), placed);
      }
    }
  }

  bool add_cheapest(int supplier) {
    int cheapest = -1;
    std::int64_t least = 0;
    for (const std::size_t p : stalls_.by_supplier[supplier]) {
      if (p >= problem_.packs.size()) break;
      const PackOffer& offer = problem_.packs[p];
      if (plan_.lots[p] + 1 > offer.most) continue;
      if (plan_.lots[p] + 1 < offer.prices.front().from) continue;
      const std::int64_t price = *price_of_lots(offer, plan_.lots[p] + 1) - *price_of_lots(offer, plan_.lots[p]);
      if (price > 0 && (cheapest < 0 || price < least)) {
        cheapest = static_cast<int>(p);
        least = price;
      }
    }
    if (cheapest >= 0) ++plan_.lots[cheapest];
    return cheapest >= 0;
  }

  const PurchaseProblem& problem_;
  const Stalls& stalls_;
  const std::vector<bool>& open_;
  Plan plan_;
  std::vector<std::int64_t> lacking_;
  std::vector<std::vector<int>> needs_of_, products_of_;
  std::vector<double> worth_;
  std::vector<int> changed_;  // products that serve a need just served
  std::vector<int> looks_;    // by offer
  std::priority_queue<Choice, std::vector<Choice>, std::greater<>> queue_;
};

// The next choice of families in counting order; false after the last.
bool next_choice(const PurchaseProblem& problem, std::vector<int>& family) {
  for (std::size_t s = 0; s < family.size(); ++s) {
    if (family[s] + 1 < problem.families[s]) {
      ++family[s];
      return true;
    }
    family[s] = 0;
  }
  return false;
}

// All suppliers, then each counted one with those that do not count.
std::vector<std::vector<bool>> supplier_sets(const PurchaseProblem& problem) {
  const std::size_t n = problem.suppliers.size();
  std::vector<std::vector<bool>> sets{std::vector<bool>(n, true)};
  for (std::size_t only = 0; only < n; ++only) {
    if (!problem.suppliers[only].counts) continue;
    std::vector<bool>& open = sets.emplace_back(n, false);
    for (std::size_t s = 0; s < n; ++s) open[s] = s == only || !problem.suppliers[s].counts;
  }
  return sets;
}

}  // namespace

std::optional<Plan> first_plan(const PurchaseProblem& problem) {
  std::optional<Plan> best;
  std::optional<Rank> best_rank;
  const Stalls stalls = stalls_of(problem);
  const std::vector<std::vector<bool>> sets = supplier_sets(problem);
  std::vector<int> family(problem.families.size(), 0);
  int choices = 0;
  do {
    for (const std::vector<bool>& open : sets) {
      std::optional<Plan> plan = Cover(problem, stalls, family, open).run();
      const std::optional<Rank> found = plan ? rank(problem, *plan) : std::nullopt;
      if (found && (!best_rank || *found < *best_rank)) {
        best_rank = found;
        best = std::move(plan);
      }
    }
  } while (++choices < kMostFamilyChoices && next_choice(problem, family));
  return best;
}

}  // namespace teetally
