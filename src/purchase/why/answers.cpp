#include "purchase/why/answers.h"

#include <algorithm>

#include "teetally/purchase/buy_with.h"

namespace teetally {
namespace {

constexpr double kLeastQuestions = 6;  // no single question may use up the time of all

constexpr double kQuickSeconds = 2;  // for our own search, which is asked first
constexpr double kNoLimit = 1e9;
constexpr const char* kOwn = "exact";
constexpr const char* kOther = "cbc";

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

// What is known from elsewhere sharpens what the search could show.
void settle(Purchase& purchase, Money at_least, bool floating) {
  purchase.proof.floating = purchase.proof.floating || (floating && at_least > purchase.proof.lower_bound);
  if (purchase.outcome != Outcome::bought) {
    purchase.proof.lower_bound = std::max(purchase.proof.lower_bound, at_least);
    return;
  }
  purchase.proof.lower_bound = std::min(purchase.total, std::max(purchase.proof.lower_bound, at_least));
  purchase.proof.proven = purchase.proof.proven || purchase.proof.lower_bound == purchase.total;
}

}  // namespace

Answers::Answers(const OfferBook& book, const BuyLimits& limits, const Purchase& best, double seconds)
    : book_(book), limits_(limits), best_(best), seconds_(seconds), floating_(best.proof.floating) {
  known_.push_back(best);
  note_ground(best);
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
  if (std::optional<Purchase> none = none_cheaper(question)) return *std::move(none);
  const Variant variant = variant_of(book_, question);
  Purchase found;
  if (question.forced) start_with(*question.forced);
  for (const std::string& engine : engines_for(question)) {
    if (engine == kOwn && question.cheaper) continue;  // asked above
    if (found.proof.proven || found.outcome == Outcome::infeasible) break;
    Beforehand known;
    known.orders.push_back(&found);
    known.at_least = at_least;
    const Purchase next = search(variant, engine, std::move(known));
    at_least = std::max(at_least, next.proof.lower_bound);
    if (engine == kOwn && is_whole(question)) handed_on_ = handed_on_ || next.proof.floating;
    const bool better =
        next.outcome != Outcome::out_of_time && (found.outcome == Outcome::out_of_time || next.total <= found.total);
    if (better) found = next;
    settle(found, at_least, floating_);
  }
  if (found.outcome == Outcome::bought) known_.push_back(found);
  return without_token(book_, variant, std::move(found));
}

// Engines are slow where they must buy a bundle and have no good order to start from: the best order with it besides,
// of which what it makes needless is taken away later.
void Answers::start_with(const Offer& bundle) {
  Purchase start = best_;
  const auto there = std::find_if(start.orders.begin(), start.orders.end(),
                                  [&](const SupplierOrder& order) { return order.catalog == bundle.catalog; });
  SupplierOrder& order =
      there != start.orders.end() ? *there : start.orders.emplace_back(SupplierOrder{bundle.catalog, {}, {}});
  OrderLine line;
  line.catalog = bundle.catalog;
  line.bundle = bundle.bundle;
  line.count = 1;
  order.lines.push_back(std::move(line));
  known_.push_back(std::move(start));
}

double Answers::seconds_for_one() const {
  return std::min(seconds_ / kLeastQuestions, TimeLimit(watch_, seconds_, limits_.stop).left());
}

void Answers::note_ground(const Purchase& purchase) {
  const std::string& ground = purchase.proof.rests_on;
  if (std::find(rests_on_.begin(), rests_on_.end(), ground) == rests_on_.end()) rests_on_.push_back(ground);
}

// Where only cheaper orders with a bundle matter, those without it need not be looked at: our own search then has a
// smaller question, and no order to find as long as there is none. What it leaves open is asked in full.
std::optional<Purchase> Answers::none_cheaper(const Question& question) {
  if (!question.cheaper || engines_for(question).front() != kOwn) return std::nullopt;
  Question with = question;
  with.forced = question.cheaper->offer;
  const Variant variant = variant_of(book_, with);
  Beforehand known;
  known.below = question.cheaper->than;
  Purchase purchase = search(variant, kOwn, std::move(known));
  handed_on_ = handed_on_ || purchase.proof.floating;
  if (purchase.outcome == Outcome::bought) known_.push_back(purchase);
  // An order that is dearer may stand there all the same, where mending its cuts has found one.
  const bool cheaper = purchase.outcome == Outcome::bought && purchase.total < question.cheaper->than;
  if (!cheaper && !is_settled(purchase) && purchase.proof.lower_bound < question.cheaper->than) return std::nullopt;
  return without_token(book_, variant, std::move(purchase));
}

Purchase Answers::search(const Variant& variant, const std::string& engine, Beforehand known) {
  BuyLimits limits = variant.limits;
  limits.engine = engine;
  limits.seconds = std::min(engine == kOwn ? kQuickSeconds : kNoLimit, seconds_for_one());
  for (const Purchase& each : known_) known.orders.push_back(&each);
  known.name_shortfalls = false;
  FoundPurchase next = buy_with(variant.book, limits, known);
  if (next.searched) {
    ++solved_;
    note_ground(next.purchase);
    floating_ = floating_ || next.purchase.proof.floating;
  } else {
    next.purchase.proof.floating = floating_;  // it rests on the other answers
  }
  return std::move(next.purchase);
}

// Our own search is the quicker one; what it leaves open goes to CBC, but for questions that only narrow a gap. Where
// it has handed such a question on by itself it is not asked again. Another engine that the user names answers alone.
std::vector<std::string> Answers::engines_for(const Question& question) const {
  if (limits_.engine != kOwn) return {limits_.engine};
  if (question.eased) return {kOwn};
  if (handed_on_ && is_whole(question)) return {kOther};
  return {kOwn, kOther};
}

// No supplier less than the user allows.
bool Answers::is_whole(const Question& question) const {
  return question.limits.only_suppliers == limits_.only_suppliers &&
         question.limits.avoid_suppliers == limits_.avoid_suppliers;
}

}  // namespace teetally
