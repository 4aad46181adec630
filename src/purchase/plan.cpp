#include "purchase/plan.h"

#include <algorithm>
#include <numeric>

namespace teetally {
namespace {

// Goods value of a bundle line, or nullopt when its changes or its count break a rule.
std::optional<std::int64_t> price_of_bundles(const BundleOffer& offer, const BundleCount& line) {
  if (line.count < offer.least || line.count > offer.most) return std::nullopt;
  std::int64_t goods = offer.price * line.count;
  for (std::size_t p = 0; p < offer.parts.size(); ++p) {
    std::int64_t changed = 0;
    for (std::size_t c = 0; c < offer.parts[p].choices.size(); ++c) {
      const std::int64_t times = line.changed[p][c];
      if (times < 0) return std::nullopt;
      changed += times;
      goods += offer.parts[p].choices[c].extra * times;
    }
    if (changed > line.count) return std::nullopt;
  }
  return goods;
}

bool takes_wanted_bundle(const PurchaseProblem& problem, const Plan& plan) {
  if (!problem.bundle_wanted) return true;
  return std::any_of(problem.wanted_bundles.begin(), problem.wanted_bundles.end(),
                     [&](int b) { return plan.bundles[b].count > 0; });
}

struct Order {
  std::int64_t goods = 0;
  bool placed = false;
};

// Goods by supplier, or nullopt when a line breaks a rule.
std::optional<std::vector<Order>> orders_of(const PurchaseProblem& problem, const Plan& plan, Rank& rank) {
  std::vector<Order> orders(problem.suppliers.size());
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    const PackOffer& offer = problem.packs[i];
    const std::int64_t lots = plan.lots[i];
    if (lots == 0) continue;
    const std::optional<std::int64_t> price = price_of_lots(offer, lots);
    if (!price || lots > offer.most) return std::nullopt;
    orders[offer.supplier].goods += *price;
    orders[offer.supplier].placed = true;
    rank.packs += lots * offer.packs_per_lot;
  }
  for (std::size_t i = 0; i < problem.bundles.size(); ++i) {
    const std::optional<std::int64_t> price = price_of_bundles(problem.bundles[i], plan.bundles[i]);
    if (!price) return std::nullopt;
    if (plan.bundles[i].count == 0) continue;
    orders[problem.bundles[i].supplier].goods += *price;
    orders[problem.bundles[i].supplier].placed = true;
    rank.packs += plan.bundles[i].count;
  }
  return orders;
}

}  // namespace

Plan empty_plan(const PurchaseProblem& problem) {
  Plan plan;
  plan.lots.assign(problem.packs.size(), 0);
  for (const BundleOffer& offer : problem.bundles) {
    BundleCount& line = plan.bundles.emplace_back();
    for (const BundlePart& part : offer.parts) line.changed.emplace_back(part.choices.size(), 0);
  }
  plan.family.assign(problem.families.size(), 0);
  plan.joins.assign(problem.joins.size(), 0);
  return plan;
}

std::int64_t rounded_share(std::int64_t ppm, std::int64_t amount) {
  const std::int64_t million = 1'000'000;
  return ppm * (amount / million) + (ppm * (amount % million) + million / 2) / million;
}

std::optional<std::int64_t> price_of_lots(const PackOffer& offer, std::int64_t lots) {
  if (lots == 0) return 0;
  const LotPrice* step = nullptr;
  for (const LotPrice& price : offer.prices) {
    if (price.from <= lots) step = &price;
  }
  if (step == nullptr) return std::nullopt;
  return step->base + step->each * lots;
}

std::optional<std::int64_t> cost_of_order(const SupplierTerms& terms, std::int64_t goods) {
  for (const OrderBracket& bracket : terms.brackets) {
    if (goods < bracket.from || goods > bracket.to) continue;
    const std::int64_t value = goods - rounded_share(bracket.discount_ppm, goods);
    const std::int64_t taxed = value + (terms.tax_on_charge ? bracket.charge : 0);
    return value + bracket.charge + rounded_share(terms.tax_ppm, taxed);
  }
  return std::nullopt;
}

std::vector<std::int64_t> bought(const PurchaseProblem& problem, const Plan& plan) {
  std::vector<std::int64_t> amounts(problem.products.size(), 0);
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    amounts[problem.packs[i].product] += problem.packs[i].content * plan.lots[i];
  }
  for (std::size_t i = 0; i < problem.bundles.size(); ++i) {
    const BundleCount& line = plan.bundles[i];
    for (std::size_t p = 0; p < problem.bundles[i].parts.size(); ++p) {
      const BundlePart& part = problem.bundles[i].parts[p];
      std::int64_t unchanged = line.count;
      for (std::size_t c = 0; c < part.choices.size(); ++c) {
        unchanged -= line.changed[p][c];
        if (part.choices[c].product >= 0) amounts[part.choices[c].product] += part.content * line.changed[p][c];
      }
      amounts[part.product] += part.content * unchanged;
    }
  }
  return amounts;
}

std::int64_t wanted(const PurchaseProblem& problem, const Plan& plan, int need) {
  std::int64_t amount = problem.needs[need];
  for (std::size_t j = 0; j < problem.joins.size(); ++j) {
    if (problem.joins[j].need == need) amount += plan.joins[j];
  }
  return amount;
}

std::int64_t count_of(const Plan& plan, const CountTerm& term) {
  if (term.pack >= 0) return term.each * plan.lots[term.pack];
  if (term.join >= 0) return term.each * plan.joins[term.join];
  const BundleCount& line = plan.bundles[term.bundle];
  const std::vector<std::int64_t>& changed = line.changed[term.part];
  if (term.choice >= 0) return term.each * changed[term.choice];
  return term.each * (line.count - std::accumulate(changed.begin(), changed.end(), std::int64_t{0}));
}

bool keeps_cut_rules(const PurchaseProblem& problem, const Plan& plan) {
  return std::all_of(problem.cut_rules.begin(), problem.cut_rules.end(), [&](const CutRule& rule) {
    const bool applies = std::all_of(rule.when.begin(), rule.when.end(),
                                     [&](const auto& when) { return plan.family[when.first] == when.second; });
    return !applies || std::any_of(rule.any_of.begin(), rule.any_of.end(), [&](const Reach& reach) {
      std::int64_t sum = 0;
      for (const CountTerm& term : reach.terms) sum += count_of(plan, term);
      return sum >= reach.least;
    });
  });
}

std::optional<Rank> rank(const PurchaseProblem& problem, const Plan& plan) {
  Rank result;
  const std::optional<std::vector<Order>> orders = orders_of(problem, plan, result);
  if (!orders || !takes_wanted_bundle(problem, plan)) return std::nullopt;
  for (std::size_t s = 0; s < orders->size(); ++s) {
    if (!(*orders)[s].placed) continue;
    const std::optional<std::int64_t> cost = cost_of_order(problem.suppliers[s], (*orders)[s].goods);
    if (!cost) return std::nullopt;
    result.cost += *cost;
    if (problem.suppliers[s].counts) ++result.suppliers;
  }
  if (problem.most_suppliers && result.suppliers > *problem.most_suppliers) return std::nullopt;
  if (!keeps_cut_rules(problem, plan) || !allot(problem, plan)) return std::nullopt;
  const std::vector<std::int64_t> amounts = bought(problem, plan);
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    (problem.products[i].by_length ? result.tenths_mm : result.pieces) += amounts[i];
  }
  return result;
}

}  // namespace teetally
