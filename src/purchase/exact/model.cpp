#include "purchase/exact/model.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "purchase/exact/rules.h"
#include "purchase/exact/shared.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostStates = 400'000;       // of a group with one demand
constexpr std::int64_t kMostSharedStates = 20'000;  // of a group with several
constexpr std::int64_t kMostRuledStates = 40'000;   // of one with one demand and cut rules: nothing is shared out
constexpr std::int64_t kAsGood = 8;                 // times as many states without sharing out
constexpr int kMostColumnsPerBundle = 64;
const char* const kTooManyRules = "pieces that total length does not settle";

bool allowed(const ServingOption& serving, const std::vector<int>& family) {
  return std::all_of(serving.conditions.begin(), serving.conditions.end(),
                     [&](const FamilyCondition& c) { return c.allowed[family[c.system]]; });
}

std::int64_t ceil_div(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

// Which needs each product serves, and which needs stand together.
struct Servings {
  std::vector<std::vector<int>> needs_of;  // by product
  std::vector<int> group_of;               // by need; -1 where nothing is needed
  std::vector<unsigned> bit_of;            // by need
};

int root_of(std::vector<int>& parent, int v) {
  while (parent[v] != v) v = parent[v] = parent[parent[v]];
  return v;
}

// Needs joined by a product they share. Needs served by the same products are one demand.
std::vector<std::vector<std::vector<int>>> group_needs(const PurchaseProblem& problem, const std::vector<int>& family,
                                                       Servings& servings) {
  const int n = static_cast<int>(problem.needs.size());
  servings.needs_of.assign(problem.products.size(), {});
  std::vector<std::vector<int>> products_of(n);
  for (const ServingOption& s : problem.servings) {
    if (problem.needs[s.need] == 0 || !allowed(s, family)) continue;
    servings.needs_of[s.product].push_back(s.need);
    products_of[s.need].push_back(s.product);
  }
  for (std::vector<int>& products : products_of) std::sort(products.begin(), products.end());
  std::vector<int> parent(n);
  std::iota(parent.begin(), parent.end(), 0);
  for (const std::vector<int>& needs : servings.needs_of) {
    for (int v : needs) parent[root_of(parent, v)] = root_of(parent, needs.front());
  }
  std::map<int, std::map<std::vector<int>, std::vector<int>>> by_root;
  for (int v = 0; v < n; ++v) {
    if (problem.needs[v] > 0) by_root[root_of(parent, v)][products_of[v]].push_back(v);
  }
  std::vector<std::vector<std::vector<int>>> groups;
  servings.group_of.assign(n, -1);
  servings.bit_of.assign(n, 0);
  for (const auto& [root, dims] : by_root) {
    std::vector<std::vector<int>>& group = groups.emplace_back();
    for (const auto& [products, needs] : dims) {
      for (int v : needs) {
        servings.group_of[v] = static_cast<int>(groups.size()) - 1;
        servings.bit_of[v] = group.size() < 31 ? 1u << group.size() : 0u;
      }
      group.push_back(needs);
    }
  }
  return groups;
}

struct Target {
  int group = -1;
  unsigned dims = 0;
};
Target target_of(const Servings& servings, int product) {
  Target target;
  if (product < 0) return target;
  for (int need : servings.needs_of[product]) {
    target.group = servings.group_of[need];
    target.dims |= servings.bit_of[need];
  }
  return target;
}

// Price lists as runs without an upper end, where leaving it out changes no cheapest price.
std::vector<PriceRun> open_runs(const PackOffer& offer) {
  std::vector<PriceRun> runs;
  for (std::size_t i = 0; i < offer.prices.size(); ++i) {
    const LotPrice& price = offer.prices[i];
    if (i > 0) {
      const LotPrice& last = offer.prices[i - 1];
      const bool dearer_beyond = last.base + last.each * price.from >= price.base + price.each * price.from;
      if (!dearer_beyond || price.each > last.each) return {};
    }
    runs.push_back({price.from, price.base + price.each * price.from, price.each});
  }
  return runs;
}

std::int64_t cost_of_lots(const PackOffer& offer, std::int64_t lots) {
  std::int64_t cost = -1;
  for (const LotPrice& price : offer.prices) {
    if (price.from <= lots) cost = price.base + price.each * lots;
  }
  return cost;
}

// Lots from which on more of them bring nothing.
std::int64_t enough_lots(const NeedGroup& group, const Brings& brings) {
  std::int64_t demand = 0, enough = 0;
  for (std::size_t d = 0; d < group.needs.size(); ++d) {
    if (brings.dims >> d & 1) demand += group.demand[d];
  }
  enough = ceil_div(demand, brings.units);
  for (std::size_t r = 0; r < brings.counted.size(); ++r) {
    if (brings.counted[r] == 0) continue;
    enough = std::max(enough, ceil_div(group.demand[group.needs.size() + r], brings.counted[r]));
  }
  return enough;
}

GroupOffer offer_for(const ExactModel& model, int pack, unsigned dims, const NeedGroup& group) {
  const PackOffer& offer = model.problem->packs[pack];
  GroupOffer result;
  result.tie = model.measure.tie_down(tie_of_lot(model, pack));
  result.pack = pack;
  result.brings = {dims, offer.content / group.unit, {}};
  for (const Reach& sum : group.sums) result.brings.counted.push_back(counted_in(sum, pack));
  const std::int64_t enough = std::max(enough_lots(group, result.brings), offer.prices.back().from);
  if (offer.most >= enough) result.runs = open_runs(offer);
  if (result.runs.empty()) {
    for (std::int64_t n = 1; n <= std::min(offer.most, enough); ++n) result.costs.push_back(cost_of_lots(offer, n));
  }
  return result;
}

// Every combination of swaps of a bundle, as the choice taken by part (-1: none).
std::vector<std::vector<int>> swap_combinations(const BundleOffer& bundle, const Servings& servings) {
  std::vector<std::vector<int>> combinations{std::vector<int>(bundle.parts.size(), -1)};
  for (std::size_t p = 0; p < bundle.parts.size(); ++p) {
    const std::size_t before = combinations.size();
    for (std::size_t c = 0; c < bundle.parts[p].choices.size(); ++c) {
      if (target_of(servings, bundle.parts[p].choices[c].product).group < 0) continue;
      for (std::size_t i = 0; i < before; ++i) {
        combinations.push_back(combinations[i]);
        combinations.back()[p] = static_cast<int>(c);
      }
      if (combinations.size() > kMostColumnsPerBundle) return {};
    }
  }
  return combinations;
}

// The choice that gives most money back, or leaves least over, and leaves nothing of use: a part left out, or swapped
// for something that serves no need.
int best_leave_out(const ExactModel& model, int bundle, int p, const Servings& servings) {
  const BundlePart& part = model.problem->bundles[bundle].parts[p];
  int best = -1;
  std::pair<std::int64_t, std::int64_t> saved{0, 0};
  for (std::size_t c = 0; c < part.choices.size(); ++c) {
    const BundleChoice& choice = part.choices[c];
    if (choice.extra > 0 || target_of(servings, choice.product).group >= 0) continue;
    const std::pair saves{-choice.extra, tie_saved(model, bundle, p, static_cast<int>(c))};
    if (saves <= saved) continue;
    best = static_cast<int>(c);
    saved = saves;
  }
  return best;
}

// What one bundle adds to the tie, swaps included and every part there.
std::int64_t tie_of_bundle(const ExactModel& model, int b, const std::vector<int>& choice) {
  const PurchaseProblem& problem = *model.problem;
  std::int64_t tie = model.measure.ties.pack;
  for (std::size_t p = 0; p < choice.size(); ++p) {
    const BundlePart& part = problem.bundles[b].parts[p];
    tie += model.measure.tie_of(problem.products[part.product], part.content);
    if (choice[p] >= 0) tie -= tie_saved(model, b, static_cast<int>(p), choice[p]);
  }
  return tie;
}

void add_column(ExactModel& model, int b, const std::vector<int>& choice, const Servings& servings) {
  const BundleOffer& bundle = model.problem->bundles[b];
  const int id = static_cast<int>(model.columns.size());
  BundleColumn column{b, bundle.supplier, choice, bundle.price, 0, {}, bundle.most, {}};
  column.tie = tie_of_bundle(model, b, choice);
  std::int64_t useless_tie = 0;
  for (std::size_t p = 0; p < bundle.parts.size(); ++p) {
    const BundlePart& part = bundle.parts[p];
    const bool swapped = choice[p] >= 0;
    if (swapped) column.price += part.choices[choice[p]].extra;
    const Target target = target_of(servings, swapped ? part.choices[choice[p]].product : part.product);
    const int out = swapped ? -1 : best_leave_out(model, b, static_cast<int>(p), servings);
    const std::int64_t credit = out >= 0 ? -part.choices[out].extra : 0;
    const std::int64_t tie = out >= 0 ? tie_saved(model, b, static_cast<int>(p), out) : 0;
    if (target.group < 0) {
      if (out >= 0) {
        column.useless_credit += credit;
        useless_tie += tie;
        column.useless.push_back({static_cast<int>(p), out});
      }
      continue;
    }
    std::vector<GroupColumn>& columns = model.groups[target.group].columns;
    if (columns.empty() || columns.back().column != id) columns.push_back({id, {}});
    Brings brings{target.dims, part.content, {}};
    for (const Reach& sum : model.groups[target.group].sums) {
      brings.counted.push_back(counted_in(sum, b, static_cast<int>(p), choice[p]));
    }
    columns.back().parts.push_back({static_cast<int>(p), out, std::move(brings), credit, model.measure.tie_up(tie)});
  }
  column.least_tie = model.measure.tie_down(column.tie - useless_tie);
  model.columns.push_back(std::move(column));
}

std::vector<SupplierState> states_of(const SupplierTerms& terms, bool count_limited, const Measure& measure) {
  std::vector<SupplierState> states;
  for (std::size_t b = 0; b < terms.brackets.size(); ++b) {
    const OrderBracket& bracket = terms.brackets[b];
    SupplierState state{true, static_cast<int>(b), bracket.from, bracket.to};
    const double tax = static_cast<double>(terms.tax_ppm) / 1e6;
    const double keep = 1 - static_cast<double>(bracket.discount_ppm) / 1e6;
    state.rate = keep * (1 + tax);
    // Discount and tax are each rounded to the nearest minor unit, half up.
    const double rounding = (bracket.discount_ppm > 0 ? 0.5 * (1 + tax) : 0) + (terms.tax_ppm > 0 ? 0.5 : 0);
    const double charge = static_cast<double>(bracket.charge) * (1 + (terms.tax_on_charge ? tax : 0));
    state.slack = std::ceil(rounding * measure.minor);
    state.fixed = std::floor(charge * measure.minor) - state.slack;
    state.tie = terms.counts ? measure.ties.supplier : 0;
    state.scaled_tie = measure.tie_down(state.tie);
    states.push_back(state);
  }
  const bool may_as_well_be_used = !states.empty() && states.front().from == 0 && states.front().fixed == 0 &&
                                   states.front().tie == 0 && (!count_limited || !terms.counts);
  if (!may_as_well_be_used) states.insert(states.begin(), SupplierState{});
  return states;
}

// Lengths are counted in the largest unit that divides every coil; a demand that stands alone is rounded up to
// it, which changes no cover. Demands that share a coil may share it anywhere, so there the unit divides them too.
std::int64_t common_unit(const PurchaseProblem& problem, const Servings& servings, int group,
                         const std::vector<std::vector<int>>& demands) {
  std::int64_t unit = 0;
  for (const std::vector<int>& needs : demands) {
    std::int64_t amount = 0;
    for (int need : needs) amount += problem.needs[need];
    if (demands.size() > 1) unit = std::gcd(unit, amount);
  }
  for_each_content(problem, [&](int product, std::int64_t content) {
    if (product >= 0 && target_of(servings, product).group == group) unit = std::gcd(unit, content);
  });
  return std::max<std::int64_t>(unit, 1);
}

// Whether anything on offer serves the group at all.
bool is_served(const PurchaseProblem& problem, const Servings& servings, int group) {
  bool served = false;
  for_each_content(problem, [&](int product, std::int64_t) {
    served = served || (product >= 0 && target_of(servings, product).group == group);
  });
  return served;
}

// Empty when the group is one the search can hold; else why not.
std::string count_states(const PurchaseProblem& problem, NeedGroup& group) {
  group.states = 1;
  for (const std::vector<int>& needs : group.needs) {
    std::int64_t amount = 0;
    for (int need : needs) amount += problem.needs[need];
    group.demand.push_back(ceil_div(amount, group.unit));
    group.states *= group.demand.back() + 1;
    if (group.states > kMostStates) return "a need has too many steps";
  }
  const std::size_t shared = group.demand.size();
  for (const Reach& sum : group.sums) {
    group.demand.push_back(sum.least);
    if (sum.least > kMostStates) return kTooManyRules;
    group.states *= sum.least + 1;
    if (group.states > kMostStates) return kTooManyRules;
  }
  if (shared > 1 && (group.states > kMostSharedStates || shared > kMostSharing)) return "too many needs share products";
  if (shared < group.demand.size() && group.states > kMostRuledStates) return kTooManyRules;
  return "";
}

// Needs that share products become one demand and sums, where that takes few states: nothing need be shared out then.
void merge_shared(const PurchaseProblem& problem, int g, NeedGroup& group, Servings& servings) {
  if (group.needs.size() < 2 || group.needs.size() > kMostSharing) return;
  std::vector<std::int64_t> demands;
  std::vector<unsigned> dims_of;
  std::int64_t sharing_out = 1;
  for (const std::vector<int>& needs : group.needs) {
    std::int64_t amount = 0;
    for (int need : needs) amount += problem.needs[need];
    demands.push_back(amount);
    sharing_out = std::min(kMostStates, sharing_out * (amount / group.unit + 1));
  }
  for (std::size_t product = 0; product < problem.products.size(); ++product) {
    const Target target = target_of(servings, static_cast<int>(product));
    dims_of.push_back(target.group == g ? target.dims : 0);
  }
  SharedNeeds shared = share_needs(problem, demands, dims_of);
  for (const Reach& rule : group.sums) shared.states = std::min(kMostStates, shared.states * (rule.least + 1));
  if (shared.states > kMostRuledStates) return;
  if (sharing_out <= kMostSharedStates && shared.states > kAsGood * sharing_out) return;
  group.unit = shared.unit;
  for (std::size_t d = 1; d < group.needs.size(); ++d) {
    group.needs[0].insert(group.needs[0].end(), group.needs[d].begin(), group.needs[d].end());
  }
  group.needs.resize(1);
  for (int need : group.needs[0]) servings.bit_of[need] = 1;
  for (Reach& sum : shared.sums) group.sums.push_back(std::move(sum));
}

// The group of whatever the sum counts; -1 where that is not one group.
int group_of(const PurchaseProblem& problem, const Servings& servings, const Reach& sum) {
  int group = -1;
  for (const CountTerm& term : sum.terms) {
    int product = -1;
    if (term.pack >= 0) {
      product = problem.packs[term.pack].product;
    } else if (term.bundle >= 0) {
      const BundlePart& part = problem.bundles[term.bundle].parts[term.part];
      product = term.choice < 0 ? part.product : part.choices[term.choice].product;
    }
    const int found = target_of(servings, product).group;
    if (found < 0 || (group >= 0 && found != group)) return -1;
    group = found;
  }
  return group;
}

// Hands each cut rule to its group; false when one is about something else than one group.
bool add_sums(const PurchaseProblem& problem, const Servings& servings, std::vector<NeedGroup>& groups) {
  for (Reach& sum : counted_sums(problem)) {
    const int group = group_of(problem, servings, sum);
    if (group < 0) return false;
    groups[group].sums.push_back(std::move(sum));
  }
  return true;
}

}  // namespace

std::int64_t tie_of_lot(const ExactModel& model, int pack) {
  const PackOffer& offer = model.problem->packs[pack];
  return offer.packs_per_lot * model.measure.ties.pack +
         model.measure.tie_of(model.problem->products[offer.product], offer.content);
}

std::int64_t tie_saved(const ExactModel& model, int bundle, int part, int choice) {
  const PurchaseProblem& problem = *model.problem;
  const BundlePart& from = problem.bundles[bundle].parts[part];
  const int to = from.choices[choice].product;
  const std::int64_t before = model.measure.tie_of(problem.products[from.product], from.content);
  return before - (to >= 0 ? model.measure.tie_of(problem.products[to], from.content) : 0);
}

std::vector<std::int64_t> goods_of(const PurchaseProblem& problem, const Plan& plan) {
  std::vector<std::int64_t> goods(problem.suppliers.size(), 0);
  for (std::size_t i = 0; i < plan.lots.size(); ++i) {
    if (plan.lots[i] > 0) goods[problem.packs[i].supplier] += price_of_lots(problem.packs[i], plan.lots[i]).value_or(0);
  }
  for (std::size_t b = 0; b < plan.bundles.size(); ++b) {
    const BundleOffer& offer = problem.bundles[b];
    goods[offer.supplier] += offer.price * plan.bundles[b].count;
    for (std::size_t p = 0; p < offer.parts.size(); ++p) {
      for (std::size_t c = 0; c < offer.parts[p].choices.size(); ++c) {
        goods[offer.supplier] += offer.parts[p].choices[c].extra * plan.bundles[b].changed[p][c];
      }
    }
  }
  return goods;
}

// NOLINTNEXTLINE(readability-function-size): one pass over one list, read from top to bottom
ModelAnswer arrange(const PurchaseProblem& problem, const std::vector<int>& family, const Measure& measure) {
  ModelAnswer answer;
  if (measure.minor <= 0) {
    answer.why = "amounts too large for whole steps";
    return answer;
  }
  ExactModel model;
  model.problem = &problem;
  model.family = family;
  model.measure = measure;
  Servings servings;
  const auto groups = group_needs(problem, family, servings);
  model.groups.resize(groups.size());
  if (!add_sums(problem, servings, model.groups)) {
    answer.why = kTooManyRules;
    return answer;
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    NeedGroup& group = model.groups[g];
    group.needs = groups[g];
    if (!is_served(problem, servings, static_cast<int>(g))) {
      answer.impossible = true;
      return answer;
    }
    group.unit = common_unit(problem, servings, static_cast<int>(g), group.needs);
    merge_shared(problem, static_cast<int>(g), group, servings);
    group.offers.resize(problem.suppliers.size());
    answer.why = count_states(problem, group);
    if (!answer.why.empty()) return answer;
  }
  for (std::size_t i = 0; i < problem.packs.size(); ++i) {
    const Target target = target_of(servings, problem.packs[i].product);
    if (target.group < 0) continue;
    NeedGroup& group = model.groups[target.group];
    group.offers[problem.packs[i].supplier].push_back(offer_for(model, static_cast<int>(i), target.dims, group));
  }
  model.columns_of.resize(problem.suppliers.size());
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    if (problem.bundles[b].most == 0) continue;
    const auto combinations = swap_combinations(problem.bundles[b], servings);
    if (combinations.empty()) {
      answer.why = "a bundle has too many combinations of swaps";
      return answer;
    }
    for (const std::vector<int>& choice : combinations) add_column(model, static_cast<int>(b), choice, servings);
  }
  for (std::size_t g = 0; g < model.groups.size(); ++g) {
    NeedGroup& group = model.groups[g];
    bool served = !group.columns.empty();
    for (const auto& offers : group.offers) served = served || !offers.empty();
    if (!served) answer.impossible = true;
    for (std::size_t t = 0; t < group.columns.size(); ++t) {
      for (ColumnPart& part : group.columns[t].parts) part.brings.units /= group.unit;
      model.columns[group.columns[t].column].groups.push_back({static_cast<int>(g), static_cast<int>(t)});
    }
  }
  for (std::size_t c = 0; c < model.columns.size(); ++c) {
    model.columns_of[model.columns[c].supplier].push_back(static_cast<int>(c));
  }
  for (const SupplierTerms& terms : problem.suppliers) {
    model.suppliers.push_back(states_of(terms, problem.most_suppliers.has_value(), measure));
  }
  answer.model = std::move(model);
  return answer;
}

}  // namespace teetally
