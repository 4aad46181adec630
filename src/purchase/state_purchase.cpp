#include "purchase/state_purchase.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace teetally {
namespace {

OrderLine pack_line(const OfferBook& book, const PackOffer& offer, std::int64_t lots) {
  OrderLine line;
  line.catalog = offer.catalog;
  line.item = offer.item;
  line.pack = offer.pack;
  line.count = lots * offer.packs_per_lot;
  line.goods = price_of(book.catalogs[offer.catalog]->items[offer.item].packs[offer.pack], line.count);
  return line;
}

OrderLine bundle_line(const BundleOffer& offer, const BundleCount& count) {
  OrderLine line;
  line.catalog = offer.catalog;
  line.bundle = offer.bundle;
  line.count = count.count;
  line.goods = Money{offer.price} * count.count;
  for (std::size_t p = 0; p < offer.parts.size(); ++p) {
    for (std::size_t c = 0; c < offer.parts[p].choices.size(); ++c) {
      const std::int64_t times = count.changed[p][c];
      if (times == 0) continue;
      line.changes.push_back({static_cast<int>(p), offer.parts[p].choices[c].swap, times});
      line.goods += Money{offer.parts[p].choices[c].extra} * times;
    }
  }
  return line;
}

std::vector<SupplierOrder> orders_of(const OfferBook& book, const PurchaseProblem& problem, const Plan& plan) {
  std::map<int, SupplierOrder> orders;  // by catalog
  for (std::size_t p = 0; p < problem.packs.size(); ++p) {
    if (plan.lots[p] == 0) continue;
    orders[problem.packs[p].catalog].lines.push_back(pack_line(book, problem.packs[p], plan.lots[p]));
  }
  for (std::size_t b = 0; b < problem.bundles.size(); ++b) {
    if (plan.bundles[b].count == 0) continue;
    orders[problem.bundles[b].catalog].lines.push_back(bundle_line(problem.bundles[b], plan.bundles[b]));
  }
  std::vector<SupplierOrder> result;
  for (auto& [catalog, order] : orders) {
    Money goods;
    for (const OrderLine& line : order.lines) goods += line.goods;
    order.catalog = catalog;
    order.cost = landed_cost(book.catalogs[catalog]->terms, goods);
    result.push_back(std::move(order));
  }
  return result;
}

// What serves what: as the coils are cut, and for all else as it comes.
std::vector<std::int64_t> served(const PurchaseProblem& problem, const Solved& solved) {
  std::vector<std::int64_t> flow = allot(problem, *solved.plan).value();
  std::map<std::pair<int, int>, std::int64_t> cut;  // need, product
  std::set<int> needs;
  for (const LaidCoil& coil : solved.coils) {
    for (const LaidCut& one : coil.cuts) {
      needs.insert(one.need);
      if (coil.product >= 0) cut[{one.need, coil.product}] += one.length;
    }
  }
  for (std::size_t s = 0; s < flow.size(); ++s) {
    const ServingOption& serving = problem.servings[s];
    if (!needs.contains(serving.need)) continue;
    const bool allowed =
        std::all_of(serving.conditions.begin(), serving.conditions.end(),
                    [&](const FamilyCondition& c) { return c.allowed[solved.plan->family[c.system]]; });
    std::int64_t& amount = cut[{serving.need, serving.product}];
    flow[s] = allowed ? std::exchange(amount, 0) : 0;
  }
  return flow;
}

}  // namespace

void state_plan(const OfferBook& book, const PurchaseProblem& problem, const Solved& solved, Purchase& purchase) {
  const Plan& plan = *solved.plan;
  purchase.orders = orders_of(book, problem, plan);
  purchase.total = {};
  for (const SupplierOrder& order : purchase.orders) purchase.total += order.cost.total;
  purchase.family_of_system.assign(problem.families.size(), -1);
  std::vector<std::int64_t> left = bought(problem, plan);
  const std::vector<std::int64_t> flow = served(problem, solved);
  for (std::size_t s = 0; s < flow.size(); ++s) {
    if (flow[s] == 0) continue;
    const ServingOption& serving = problem.servings[s];
    purchase.supplies.push_back({serving.need, problem.products[serving.product].book_item, flow[s]});
    left[serving.product] -= flow[s];
    for (const FamilyCondition& c : serving.conditions) purchase.family_of_system[c.system] = plan.family[c.system];
  }
  std::stable_sort(purchase.supplies.begin(), purchase.supplies.end(),
                   [](const Supply& a, const Supply& b) { return a.need < b.need; });
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (left[i] > 0) purchase.leftovers.push_back({problem.products[i].catalog, problem.products[i].item, left[i]});
  }
  state_cuts(book, problem, solved, purchase);
}

}  // namespace teetally
