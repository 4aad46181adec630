#include "teetally/purchase/compare.h"

#include <algorithm>

#include "purchase/build_problem.h"
#include "purchase/why/needs.h"
#include "purchase/why/plans.h"
#include "purchase/why/prices.h"

namespace teetally {
namespace {

bool lists(const std::vector<std::string>& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool may_buy_from(const Catalog& catalog, const BuyLimits& limits) {
  if (is_free(catalog)) return false;  // at hand, not bought
  if (!limits.only_suppliers.empty() && !lists(limits.only_suppliers, catalog.id)) return false;
  return !lists(limits.avoid_suppliers, catalog.id);
}

std::vector<int> suppliers_of(const OfferBook& book, const Purchase& purchase) {
  std::vector<int> suppliers;
  for (const SupplierOrder& order : purchase.orders) {
    if (!is_free(*book.catalogs[order.catalog])) suppliers.push_back(order.catalog);
  }
  return suppliers;
}

bool buys(const Purchase& purchase, int catalog, int bundle) {
  return std::any_of(purchase.orders.begin(), purchase.orders.end(), [&](const SupplierOrder& order) {
    return order.catalog == catalog && std::any_of(order.lines.begin(), order.lines.end(),
                                                   [&](const OrderLine& line) { return line.bundle == bundle; });
  });
}

bool is_needed(const OfferBook& book, int catalog, int item) {
  return std::any_of(book.servings.begin(), book.servings.end(), [&](const Serving& serving) {
    const BookItem& served = book.items[serving.item];
    return served.catalog == catalog && served.item == item && book.takeoff.needs[serving.need].amount > 0;
  });
}

bool is_useful(const OfferBook& book, int catalog, const Bundle& bundle) {
  return std::any_of(bundle.contents.begin(), bundle.contents.end(), [&](const BundleContent& content) {
    return is_needed(book, catalog, content.item) ||
           std::any_of(content.swaps.begin(), content.swaps.end(),
                       [&](const Swap& swap) { return is_needed(book, catalog, swap.item); });
  });
}

class Comparing {
 public:
  Comparing(const OfferBook& book, const BuyLimits& limits, const Purchase& best, const CompareWishes& wishes)
      : book_(book), limits_(limits), wishes_(wishes), answers_(book, limits, best, wishes.seconds) {
    made_.best = best;
  }

  Comparison run() {
    ask_alone();
    ask_front();
    ask_loose();
    ask_without();
    ask_bundles();
    if (wishes_.break_evens) {
      for (BundleVerdict& verdict : made_.bundles) ask_turn(verdict);
    }
    if (wishes_.plans > 0) {
      DifferentPlans different = different_plans(answers_, wishes_.plans);
      made_.plans = std::move(different.plans);
      made_.plans_end = different.end;
    }
    if (wishes_.lines) ask_lines();
    if (wishes_.needs) {
      made_.needs = need_verdicts(answers_, wishes_.step);
      made_.all_spares = cost_of_all_spares(answers_);
    }
    made_.rests_on = answers_.rests_on();
    made_.questions = answers_.questions();
    made_.solved = answers_.solved();
    return std::move(made_);
  }

 private:
  Money bound() const { return made_.best.proof.lower_bound; }

  void ask_alone() {
    for (std::size_t c = 0; c < book_.catalogs.size(); ++c) {
      if (!may_buy_from(*book_.catalogs[c], limits_)) continue;
      Question question = answers_.question();
      question.limits.only_suppliers = {book_.catalogs[c]->id};
      made_.alone.push_back({static_cast<int>(c), answers_.ask(question, bound())});
    }
  }

  // From many suppliers to few: what fewer cost is never less. One supplier is one of those asked alone.
  void ask_front() {
    Money at_least = bound();
    for (auto most = static_cast<int>(suppliers_of(book_, made_.best).size()); most >= 1; --most) {
      made_.front.push_back(most > 1 ? at_most(most, at_least) : best_alone(at_least));
      at_least = made_.front.back().proof.lower_bound;
    }
    std::reverse(made_.front.begin(), made_.front.end());
  }

  Purchase at_most(int most, Money at_least) {
    Question question = answers_.question();
    question.limits.most_suppliers = most;
    return answers_.ask(question, at_least);
  }

  // Where every supplier alone is settled, one at most is the cheapest of them.
  Purchase best_alone(Money at_least) {
    Purchase best;
    best.outcome = Outcome::infeasible;
    for (const SupplierAnswer& alone : made_.alone) {
      if (!is_settled(alone.purchase)) return at_most(1, at_least);
      if (alone.purchase.outcome != Outcome::bought) continue;
      if (best.outcome != Outcome::bought || alone.purchase.total < best.total) best = alone.purchase;
    }
    return best;
  }

  void ask_loose() {
    if (limits_.take_bundle) return;
    Question question = answers_.question();
    question.limits.no_bundles = true;
    made_.loose = answers_.ask(question, bound());
  }

  void ask_without() {
    for (const int c : suppliers_of(book_, made_.best)) {
      Question question = answers_.question();
      question.limits.avoid_suppliers.push_back(book_.catalogs[c]->id);
      made_.without.push_back({c, answers_.ask(question, bound())});
    }
  }

  void ask_bundles() {
    if (limits_.no_bundles) return;
    for (std::size_t c = 0; c < book_.catalogs.size(); ++c) {
      const Catalog& catalog = *book_.catalogs[c];
      if (!may_buy_from(catalog, limits_)) continue;
      for (std::size_t b = 0; b < catalog.bundles.size(); ++b) {
        if (catalog.bundles[b].stock == 0) continue;
        made_.bundles.push_back(verdict_on(static_cast<int>(c), static_cast<int>(b)));
      }
    }
  }

  BundleVerdict verdict_on(int c, int b) {
    BundleVerdict verdict;
    verdict.catalog = c;
    verdict.bundle = b;
    verdict.useful = is_useful(book_, c, book_.catalogs[c]->bundles[b]);
    verdict.chosen = buys(made_.best, c, b);
    Question question = answers_.question();
    if (verdict.chosen) {
      verdict.with = made_.best;
      question.barred.push_back({c, -1, -1, b});
      verdict.without = answers_.ask(question, bound());
    } else if (verdict.useful) {
      verdict.without = made_.best;
      question.forced = Offer{c, -1, -1, b};
      verdict.with = answers_.ask(question, bound());
    }
    return verdict;
  }

  void ask_turn(BundleVerdict& verdict) {
    const Offer offer{verdict.catalog, -1, -1, verdict.bundle};
    if (verdict.chosen) {
      verdict.turn = turn_of_chosen(answers_, offer, verdict.without);
    } else if (verdict.useful && made_.best.proof.proven && verdict.with.outcome == Outcome::bought) {
      verdict.turn = turn_of_losing(answers_, offer, verdict.with, wishes_.close_gaps);
    }
  }

  void ask_lines() {
    for (const SupplierOrder& order : made_.best.orders) {
      if (is_free(*book_.catalogs[order.catalog])) continue;
      for (const OrderLine& line : order.lines) {
        if (line.bundle >= 0) continue;
        const Offer offer{line.catalog, line.item, line.pack, -1};
        Question question = answers_.question();
        question.barred.push_back(offer);
        LineVerdict verdict{line.catalog, line.item, line.pack, answers_.ask(question, bound()), std::nullopt};
        verdict.turn = turn_of_chosen(answers_, offer, verdict.without);
        made_.lines.push_back(std::move(verdict));
      }
    }
  }

  const OfferBook& book_;
  const BuyLimits& limits_;
  const CompareWishes& wishes_;
  Answers answers_;
  Comparison made_;
};

}  // namespace

Comparison compare(const OfferBook& book, const BuyLimits& limits, const Purchase& best, const CompareWishes& wishes) {
  if (best.outcome == Outcome::bought) return Comparing(book, limits, best, wishes).run();
  Comparison nothing;
  nothing.best = best;
  return nothing;
}

bool is_settled(const Purchase& purchase) {
  return purchase.outcome == Outcome::infeasible || (purchase.outcome == Outcome::bought && purchase.proof.proven);
}

Difference difference(const Purchase& dearer, const Purchase& cheaper) {
  Difference between;
  if (cheaper.outcome == Outcome::bought) between.least = dearer.proof.lower_bound - cheaper.total;
  if (dearer.outcome == Outcome::bought) between.most = dearer.total - cheaper.proof.lower_bound;
  return between;
}

}  // namespace teetally
