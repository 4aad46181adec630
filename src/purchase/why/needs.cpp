#include "purchase/why/needs.h"

#include <algorithm>

namespace teetally {
namespace {

std::int64_t spares_of(const Need& need) {
  std::int64_t spares = 0;
  for (const Reason& reason : need.reasons) {
    if (reason.reason_class == ReasonClass::spare) spares += reason.amount;
  }
  return std::clamp<std::int64_t>(spares, 0, need.amount);
}

// Some of what the best order buys for the need is left over: likely enough one fewer saves nothing.
bool has_spare(const Purchase& best, const OfferBook& book, int need) {
  return std::any_of(best.supplies.begin(), best.supplies.end(), [&](const Supply& supply) {
    const BookItem& item = book.items[supply.item];
    return supply.need == need && std::any_of(best.leftovers.begin(), best.leftovers.end(), [&](const Leftover& l) {
             return l.catalog == item.catalog && l.item == item.item;
           });
  });
}

class Needs {
 public:
  Needs(Answers& answers, Length step) : answers_(answers), step_(step) { lower_ = cost_of_fewer_spared(); }

  NeedVerdict verdict(int n) {
    const Need& need = answers_.book().takeoff.needs[n];
    NeedVerdict verdict;
    verdict.need = n;
    verdict.step = step_of(need);
    const Purchase more = ask({{n, need.amount + verdict.step}}, best().proof.lower_bound);
    if (more.outcome != Outcome::infeasible) verdict.one_more = difference(more, best());
    if (need.amount > verdict.step || (need.amount == verdict.step && !need.by_length)) {
      const Money at_least = has_spare(best(), answers_.book(), n) ? lower_ : Money{};
      verdict.one_fewer = difference(best(), ask({{n, need.amount - verdict.step}}, at_least));
    }
    verdict.spares = spares_of(need);
    if (verdict.spares > 0) verdict.spares_cost = difference(best(), ask({{n, need.amount - verdict.spares}}, {}));
    return verdict;
  }

 private:
  const Purchase& best() const { return answers_.best(); }
  std::int64_t step_of(const Need& need) const { return need.by_length ? step_.tenths_mm : 1; }

  Purchase ask(std::vector<std::pair<int, std::int64_t>> amounts, Money at_least) {
    Question question = answers_.question();
    question.amounts = std::move(amounts);
    return answers_.ask(question, at_least);
  }

  // One fewer of every need that has spares, all at once: one fewer of one of them alone costs no less.
  Money cost_of_fewer_spared() {
    std::vector<std::pair<int, std::int64_t>> amounts;
    const std::vector<Need>& needs = answers_.book().takeoff.needs;
    for (std::size_t n = 0; n < needs.size(); ++n) {
      const std::int64_t fewer = needs[n].amount - step_of(needs[n]);
      if (fewer > 0 && has_spare(best(), answers_.book(), static_cast<int>(n))) {
        amounts.emplace_back(static_cast<int>(n), fewer);
      }
    }
    return amounts.size() < 2 ? Money{} : ask(std::move(amounts), {}).proof.lower_bound;
  }

  Answers& answers_;
  Length step_;
  Money lower_;
};

}  // namespace

std::vector<NeedVerdict> need_verdicts(Answers& answers, Length step) {
  Needs needs(answers, step);
  std::vector<NeedVerdict> verdicts;
  const std::vector<Need>& all = answers.book().takeoff.needs;
  for (std::size_t n = 0; n < all.size(); ++n) {
    if (all[n].amount > 0) verdicts.push_back(needs.verdict(static_cast<int>(n)));
  }
  return verdicts;
}

std::optional<Difference> cost_of_all_spares(Answers& answers) {
  Question question = answers.question();
  const std::vector<Need>& needs = answers.book().takeoff.needs;
  for (std::size_t n = 0; n < needs.size(); ++n) {
    const std::int64_t spares = spares_of(needs[n]);
    if (spares > 0) question.amounts.emplace_back(static_cast<int>(n), needs[n].amount - spares);
  }
  if (question.amounts.empty()) return std::nullopt;
  return difference(answers.best(), answers.ask(question, {}));
}

}  // namespace teetally
