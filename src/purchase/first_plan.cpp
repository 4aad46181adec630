// A plan to start from: cover what is lacking by the offer that is cheapest for its use, again and again; once
// for all suppliers and once for each alone, for every choice of families (up to a limit).
#include <algorithm>

#include "purchase/solver.h"

namespace teetally {
namespace {

constexpr int kMostFamilyChoices = 64;

bool fits(const ServingOption& serving, const std::vector<int>& family) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(),
                     [&](const FamilyCondition& c) { return c.allowed[family[c.system]]; });
}

class Cover {
 public:
  Cover(const PurchaseProblem& problem, const std::vector<int>& family, const std::vector<bool>& open)
      : problem_(problem), open_(open), plan_(empty_plan(problem)), lacking_(problem.needs) {
    plan_.family = family;
    needs_of_.resize(problem.products.size());
    for (const ServingOption& serving : problem.servings) {
      if (fits(serving, family)) needs_of_[serving.product].push_back(serving.need);
    }
    set_worth();
  }

  std::optional<Plan> run() {
    if (problem_.bundle_wanted && !take_wanted()) return std::nullopt;
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
      lacking_[need] -= taken;
      amount -= taken;
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

  struct Choice {
    double price_per_value = 0;
    int pack = -1, bundle = -1;
    std::int64_t lots = 0;
  };

  void consider(Choice& best, double value, std::int64_t price, Choice choice) const {
    if (value <= 0) return;
    choice.price_per_value = (static_cast<double>(price) + 0.01) / value;
    if ((best.pack < 0 && best.bundle < 0) || choice.price_per_value < best.price_per_value) best = choice;
  }

  void consider_pack(Choice& best, int p) const {
    const PackOffer& offer = problem_.packs[p];
    const std::int64_t wanted = open_[offer.supplier] ? useful(offer.product) : 0;
    if (wanted == 0) return;
    const std::int64_t have = plan_.lots[p];
    const std::int64_t fewest = std::max<std::int64_t>(1, offer.prices.front().from - have);
    for (const std::int64_t lots : {wanted / offer.content, (wanted + offer.content - 1) / offer.content}) {
      const std::int64_t more = std::min(std::max(lots, fewest), offer.most - have);
      if (more < fewest) continue;
      const std::int64_t price = *price_of_lots(offer, have + more) - *price_of_lots(offer, have);
      consider(best, value_of(offer.product, more * offer.content), std::max<std::int64_t>(0, price), {0, p, -1, more});
    }
  }

  void consider_bundle(Choice& best, int b) const {
    const BundleOffer& offer = problem_.bundles[b];
    if (!open_[offer.supplier] || plan_.bundles[b].count >= offer.most) return;
    double value = 0;
    for (const BundlePart& part : offer.parts) value += value_of(part.product, part.content);
    consider(best, value, offer.price, {0, -1, b, 1});
  }

  bool take_best() {
    Choice best;
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) consider_pack(best, static_cast<int>(p));
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) consider_bundle(best, static_cast<int>(b));
    if (best.pack >= 0) {
      plan_.lots[best.pack] += best.lots;
      serve(problem_.packs[best.pack].product, best.lots * problem_.packs[best.pack].content);
    } else if (best.bundle >= 0) {
      take_bundle(best.bundle);
    }
    return best.pack >= 0 || best.bundle >= 0;
  }

  std::int64_t goods_of(int supplier, bool& placed) const {
    std::int64_t goods = 0;
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
      if (problem_.packs[p].supplier != supplier || plan_.lots[p] == 0) continue;
      goods += *price_of_lots(problem_.packs[p], plan_.lots[p]);
      placed = true;
    }
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) {
      if (problem_.bundles[b].supplier != supplier || plan_.bundles[b].count == 0) continue;
      goods += problem_.bundles[b].price * plan_.bundles[b].count;
      placed = true;
    }
    return goods;
  }

  // Fills an order that is too small to be delivered with one more lot at a time of whatever is cheapest.
  void top_up() {
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) {
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
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
      const PackOffer& offer = problem_.packs[p];
      if (offer.supplier != supplier || plan_.lots[p] + 1 > offer.most) continue;
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
  const std::vector<bool>& open_;
  Plan plan_;
  std::vector<std::int64_t> lacking_;
  std::vector<std::vector<int>> needs_of_;
  std::vector<double> worth_;
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
  const std::vector<std::vector<bool>> sets = supplier_sets(problem);
  std::vector<int> family(problem.families.size(), 0);
  int choices = 0;
  do {
    for (const std::vector<bool>& open : sets) {
      std::optional<Plan> plan = Cover(problem, family, open).run();
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
