#include "purchase/why_answers.h"

#include <algorithm>
#include <stdexcept>

namespace teetally {
namespace {

constexpr double kLeastQuestions = 6;  // no single question may use up the time of all

// By the needs and prices of the question, without the token that stood for a forced bundle.
Purchase without_token(const OfferBook& book, const Variant& variant, Purchase purchase) {
  if (variant.token < 0) return purchase;
  const BookItem token = variant.book.items[variant.token];
  std::erase_if(purchase.supplies, [&](const Supply& s) { return s.item == variant.token; });
  std::erase_if(purchase.leftovers,
                [&](const Leftover& l) { return l.catalog == token.catalog && l.item == token.item; });
  for (Shortfall& shortfall : purchase.shortfalls) {
    std::erase_if(shortfall.needs, [&](int need) { return need >= static_cast<int>(book.takeoff.needs.size()); });
  }
  return purchase;
}

bool ranks_before(const Purchase& a, const Purchase& b) {
  return a.total != b.total ? a.total < b.total : a.orders.size() < b.orders.size();
}

// What is known from elsewhere sharpens what the search could show.
void settle(Purchase& purchase, Money at_least) {
  if (purchase.outcome != Outcome::bought) {
    purchase.proof.lower_bound = std::max(purchase.proof.lower_bound, at_least);
    return;
  }
  purchase.proof.lower_bound = std::min(purchase.total, std::max(purchase.proof.lower_bound, at_least));
  purchase.proof.proven = purchase.proof.proven || purchase.proof.lower_bound == purchase.total;
}

}  // namespace

Answers::Answers(const OfferBook& book, const BuyLimits& limits, const Purchase& best, double seconds)
    : book_(book), limits_(limits), best_(best), seconds_(seconds) {
  remember(best);
}

Question Answers::question() const {
  Question question;
  question.limits = limits_;
  return question;
}

Purchase Answers::ask(const Question& question, Money at_least) {
  ++questions_;
  const std::string key = key_of(question);
  auto found = answers_.find(key);
  if (found == answers_.end()) found = answers_.emplace(key, answer(question, at_least)).first;
  return found->second;
}

Purchase Answers::answer(const Question& question, Money at_least) {
  Variant variant = variant_of(book_, question);
  std::optional<Purchase> known = cheapest_known(variant);
  if (known) settle(*known, at_least);
  if (known && known->proof.proven) return without_token(book_, variant, std::move(*known));
  Purchase found;
  variant.limits.seconds = std::min(seconds_ / kLeastQuestions, seconds_ - watch_.seconds());
  if (variant.limits.seconds > 0) {
    ++solved_;
    found = buy(variant.book, variant.limits);
  }
  const Money bound = std::max(at_least, found.proof.lower_bound);
  if (known && (found.outcome != Outcome::bought || known->total < found.total)) {
    if (found.outcome == Outcome::infeasible) throw std::logic_error("an order is known that the engine denies");
    found = *known;
  }
  settle(found, bound);
  remember(found);
  return without_token(book_, variant, std::move(found));
}

std::optional<Purchase> Answers::cheapest_known(const Variant& variant) const {
  std::optional<Purchase> cheapest;
  for (const Purchase& each : known_) {
    std::optional<Purchase> here = fitted(variant, each);
    if (here && (!cheapest || ranks_before(*here, *cheapest))) cheapest = std::move(here);
  }
  return cheapest;
}

// Kept as it stands, whatever the question it answers: every use fits it anew and audits it.
void Answers::remember(const Purchase& purchase) {
  if (purchase.outcome == Outcome::bought) known_.push_back(purchase);
}

}  // namespace teetally
