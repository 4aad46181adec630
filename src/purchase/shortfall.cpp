#include "purchase/shortfall.h"

#include <algorithm>

#include "purchase/build_problem.h"
#include "teetally/base/stopwatch.h"

namespace teetally {
namespace {

enum class Answer { yes, no, unknown };

// Whether any plan keeps the rules.
Answer feasible(const PurchaseProblem& problem, const Engine& engine, const TimeLimit& limit, StopFlag stop) {
  const bool cut = std::any_of(problem.pieces.begin(), problem.pieces.end(), [](const auto& p) { return !p.empty(); });
  if (!cut && first_plan(problem)) return Answer::yes;
  if (limit.over()) return Answer::unknown;
  SolveWishes wishes;
  wishes.seconds = limit.left();
  wishes.stop = stop;
  wishes.start = first_plan(problem);
  const Solved solved = solve_whole(engine, problem, wishes);
  if (solved.plan) return Answer::yes;
  return solved.infeasible ? Answer::no : Answer::unknown;
}

OfferBook only_needs(const OfferBook& book, const std::vector<int>& needs) {
  OfferBook rest = book;
  for (std::size_t n = 0; n < rest.takeoff.needs.size(); ++n) {
    if (std::find(needs.begin(), needs.end(), static_cast<int>(n)) == needs.end()) rest.takeoff.needs[n].amount = 0;
  }
  return rest;
}

template <typename Change>
OfferBook with_catalogs(OfferBook book, Change change) {
  for (std::shared_ptr<const Catalog>& catalog : book.catalogs) {
    Catalog changed = *catalog;
    change(changed);
    catalog = std::make_shared<const Catalog>(std::move(changed));
  }
  return book;
}

void forget_stock(Catalog& catalog) {
  for (Item& item : catalog.items) {
    for (Pack& pack : item.packs) pack.stock.reset();
  }
  for (Bundle& bundle : catalog.bundles) bundle.stock.reset();
}

struct Rule {
  std::string words;
  OfferBook book;
  BuyLimits limits;
};

// The book and limits with one rule at a time lifted.
std::vector<Rule> lifted_rules(const OfferBook& book, const BuyLimits& limits) {
  std::vector<Rule> rules;
  rules.push_back({"stock on offer is too small", with_catalogs(book, forget_stock), limits});
  rules.push_back({"a supplier's minimum order cannot be reached",
                   with_catalogs(book, [](Catalog& catalog) { catalog.terms.minimum_order.reset(); }), limits});
  Rule fit{"no single fit family serves them all", book, limits};
  for (Serving& serving : fit.book.servings) serving.conditions.clear();
  rules.push_back(std::move(fit));
  Rule pieces{"the pieces cannot be cut from the coils on offer", book, limits};
  for (Need& need : pieces.book.takeoff.needs) need.pieces.clear();
  rules.push_back(std::move(pieces));
  if (!limits.only_suppliers.empty() || !limits.avoid_suppliers.empty()) {
    Rule open{"the allowed suppliers do not sell enough", book, limits};
    open.limits.only_suppliers.clear();
    open.limits.avoid_suppliers.clear();
    rules.push_back(std::move(open));
  }
  if (limits.most_suppliers) {
    Rule many{"more suppliers than allowed are needed", book, limits};
    many.limits.most_suppliers.reset();
    rules.push_back(std::move(many));
  }
  if (limits.no_bundles) {
    Rule bundled{"without bundles it cannot be had", book, limits};
    bundled.limits.no_bundles = false;
    rules.push_back(std::move(bundled));
  }
  if (limits.take_bundle) {
    Rule free{"the wanted bundle cannot be bought", book, limits};
    free.limits.take_bundle.reset();
    rules.push_back(std::move(free));
  }
  return rules;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
  return text;
}

}  // namespace

std::vector<Shortfall> unserved_needs(const OfferBook& book, const BuyLimits& limits) {
  const PurchaseProblem problem = build_problem(book, limits);
  std::vector<bool> servable(problem.needs.size(), false), in_book(problem.needs.size(), false);
  std::vector<bool> sold(problem.products.size(), false);
  for (const PackOffer& offer : problem.packs) sold[offer.product] = true;
  for (const BundleOffer& offer : problem.bundles) {
    if (offer.most == 0) continue;
    for (const BundlePart& part : offer.parts) {
      sold[part.product] = true;
      for (const BundleChoice& choice : part.choices) {
        if (choice.product >= 0) sold[choice.product] = true;
      }
    }
  }
  for (const ServingOption& serving : problem.servings) {
    if (sold[serving.product]) servable[serving.need] = true;
  }
  for (const Serving& serving : book.servings) in_book[serving.need] = true;
  std::vector<Shortfall> shortfalls;
  for (std::size_t n = 0; n < problem.needs.size(); ++n) {
    if (problem.needs[n] == 0 || servable[n]) continue;
    shortfalls.push_back(
        {{static_cast<int>(n)},
         in_book[n] ? "no item that serves it can be bought within the limits" : "no item in any catalog serves it"});
  }
  return shortfalls;
}

Shortfall smallest_shortfall(const OfferBook& book, const BuyLimits& limits, const Engine& engine, double seconds) {
  const TimeLimit limit(Stopwatch{}, seconds, limits.stop);
  Shortfall shortfall;
  bool smallest = true;
  for (std::size_t n = 0; n < book.takeoff.needs.size(); ++n) {
    if (book.takeoff.needs[n].amount > 0) shortfall.needs.push_back(static_cast<int>(n));
  }
  for (const int need : std::vector<int>(shortfall.needs)) {
    std::vector<int> rest = shortfall.needs;
    std::erase(rest, need);
    const PurchaseProblem problem = build_problem(only_needs(book, rest), limits);
    const Answer answer = feasible(problem, engine, limit, limits.stop);
    if (answer == Answer::no) shortfall.needs = rest;
    if (answer == Answer::unknown) smallest = false;
  }
  const OfferBook core = only_needs(book, shortfall.needs);
  std::vector<std::string> words;
  for (const Rule& rule : lifted_rules(core, limits)) {
    const PurchaseProblem problem = build_problem(rule.book, rule.limits);
    if (feasible(problem, engine, limit, limits.stop) == Answer::yes) words.push_back(rule.words);
  }
  shortfall.why = words.empty() ? "several rules stand in the way together" : joined(words);
  if (!smallest) shortfall.why += " (time ran out: fewer needs may be enough to show it)";
  return shortfall;
}

}  // namespace teetally
