// Between plans and the columns of their linear model.
#include <algorithm>
#include <cmath>

#include "purchase/linear/model.h"

namespace teetally {
namespace {

std::int64_t whole(double value) { return static_cast<std::int64_t>(std::llround(value)); }

// Which price step holds for so many lots.
std::size_t step_of(const PackOffer& offer, std::int64_t lots) {
  std::size_t step = 0;
  while (step + 1 < offer.prices.size() && offer.prices[step + 1].from <= lots) ++step;
  return step;
}

std::size_t bracket_of(const SupplierTerms& terms, std::int64_t goods) {
  std::size_t b = 0;
  while (b + 1 < terms.brackets.size() && terms.brackets[b].to < goods) ++b;
  return b;
}

struct Values {
  std::vector<double> of;
  void set(int col, std::int64_t value) {
    if (col >= 0) of[col] = static_cast<double>(value);
  }
};

void set_orders(Values& values, const PurchaseProblem& problem, const LinearModel& model,
                const std::vector<std::int64_t>& goods, const std::vector<bool>& placed) {
  for (std::size_t s = 0; s < problem.suppliers.size(); ++s) {
    if (!placed[s]) continue;
    const SupplierTerms& terms = problem.suppliers[s];
    const SupplierColumns& columns = model.supplier_columns[s];
    const std::size_t b = bracket_of(terms, goods[s]);
    const OrderBracket& bracket = terms.brackets[b];
    const std::int64_t discount = rounded_share(bracket.discount_ppm, goods[s]);
    const std::int64_t taxed = goods[s] - discount + (terms.tax_on_charge ? bracket.charge : 0);
    values.set(columns.order, 1);
    if (!columns.bracket.empty()) values.set(columns.bracket[b], 1);
    if (!columns.goods.empty()) values.set(columns.goods[b], goods[s]);
    values.set(columns.discount, discount);
    values.set(columns.tax, rounded_share(terms.tax_ppm, taxed));
  }
}

void set_cutting(Values& values, const PurchaseProblem& problem, const LinearModel& model, const Plan& plan) {
  for (std::size_t j = 0; j < model.join_columns.size(); ++j) values.set(model.join_columns[j], plan.joins[j]);
  for (std::size_t r = 0; r < problem.cut_rules.size(); ++r) {
    for (std::size_t i = 0; i < model.reach_columns[r].size(); ++i) {
      const Reach& reach = problem.cut_rules[r].any_of[i];
      std::int64_t sum = 0;
      for (const CountTerm& term : reach.terms) sum += count_of(plan, term);
      values.set(model.reach_columns[r][i], sum >= reach.least ? 1 : 0);
    }
  }
}

void set_servings(Values& values, const PurchaseProblem& problem, const LinearModel& model, const Plan& plan) {
  const std::optional<std::vector<std::int64_t>> flow = allot(problem, plan);
  if (!flow) return;
  for (std::size_t s = 0; s < problem.servings.size(); ++s) {
    const int col = model.serving_columns[s];
    if (col < 0) continue;
    values.of[col] =
        static_cast<double>((*flow)[s]) / static_cast<double>(most_wanted(problem, problem.servings[s].need));
  }
}

}  // namespace

std::int64_t most_wanted(const PurchaseProblem& problem, int need) {
  std::int64_t amount = problem.needs[need];
  if (problem.cut_rules.empty()) return amount;
  for (const JoinOffer& join : problem.joins) amount += join.need == need ? join.most : 0;
  return amount;
}

Plan plan_from_values(const PurchaseProblem& problem, const LinearModel& model, const double* values) {
  Plan plan = empty_plan(problem);
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    for (int col : model.pack_columns[i].lots) plan.lots[i] += whole(values[col]);
    if (model.pack_columns[i].spare >= 0) plan.lots[i] += whole(values[model.pack_columns[i].spare]);
  }
  for (std::size_t i = 0; i < problem.bundles.size(); ++i) {
    const BundleColumns& columns = model.bundle_columns[i];
    plan.bundles[i].count = whole(values[columns.count]);
    for (std::size_t p = 0; p < columns.changed.size(); ++p) {
      for (std::size_t c = 0; c < columns.changed[p].size(); ++c) {
        if (columns.changed[p][c] >= 0) plan.bundles[i].changed[p][c] = whole(values[columns.changed[p][c]]);
      }
    }
  }
  for (std::size_t j = 0; j < model.join_columns.size(); ++j) plan.joins[j] = whole(values[model.join_columns[j]]);
  for (std::size_t system = 0; system < model.family_columns.size(); ++system) {
    const std::vector<int>& columns = model.family_columns[system];
    for (std::size_t f = 0; f < columns.size(); ++f) {
      if (values[columns[f]] > 0.5) plan.family[system] = static_cast<int>(f);
    }
  }
  return plan;
}

std::vector<double> values_from_plan(const PurchaseProblem& problem, const LinearModel& model, const Plan& plan) {
  Values values{std::vector<double>(model.columns.size(), 0.0)};
  std::vector<std::int64_t> goods(problem.suppliers.size(), 0);
  std::vector<bool> placed(problem.suppliers.size(), false);
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    const std::int64_t lots = plan.lots[i];
    if (lots == 0) continue;
    const std::size_t step = step_of(problem.packs[i], lots);
    const PackColumns& columns = model.pack_columns[i];
    const std::int64_t spare = columns.spare < 0 ? 0 : std::max<std::int64_t>(0, lots - problem.packs[i].needed);
    values.set(columns.lots[step], lots - spare);
    values.set(columns.on[step], 1);
    values.set(columns.spare, spare);
    goods[problem.packs[i].supplier] += *price_of_lots(problem.packs[i], lots);
    placed[problem.packs[i].supplier] = true;
  }
  for (std::size_t i = 0; i < problem.bundles.size(); ++i) {
    const BundleOffer& offer = problem.bundles[i];
    const BundleCount& line = plan.bundles[i];
    if (line.count == 0) continue;
    values.set(model.bundle_columns[i].count, line.count);
    goods[offer.supplier] += offer.price * line.count;
    placed[offer.supplier] = true;
    for (std::size_t p = 0; p < offer.parts.size(); ++p) {
      for (std::size_t c = 0; c < offer.parts[p].choices.size(); ++c) {
        values.set(model.bundle_columns[i].changed[p][c], line.changed[p][c]);
        goods[offer.supplier] += offer.parts[p].choices[c].extra * line.changed[p][c];
      }
    }
  }
  for (std::size_t system = 0; system < model.family_columns.size(); ++system) {
    if (!model.family_columns[system].empty()) values.set(model.family_columns[system][plan.family[system]], 1);
  }
  set_orders(values, problem, model, goods, placed);
  set_servings(values, problem, model, plan);
  set_cutting(values, problem, model, plan);
  return values.of;
}

}  // namespace teetally
