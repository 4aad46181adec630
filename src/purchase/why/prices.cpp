#include "purchase/why/prices.h"

#include <algorithm>

#include "purchase/build_problem.h"
#include "purchase/order_terms.h"
#include "purchase/plan.h"
#include "purchase/why/known_order.h"

namespace teetally {
namespace {

constexpr std::int64_t kMillion = 1'000'000;
constexpr int kMostSteps = 12;                   // answers asked for one turn
constexpr std::int64_t kMostWalked = 2'000'000;  // prices tried on one known order
constexpr int kMostRanges = 4;                   // of prices, to settle what lies between
constexpr std::int64_t kUnknown = kMillion;      // copies of a bundle
constexpr std::int64_t kRoundings = 4;  // minor units that rounding can move: discount and tax, before and after

std::int64_t rounded_up(std::int64_t ppm, std::int64_t amount) { return (ppm * amount + kMillion - 1) / kMillion; }

std::int64_t greatest_discount(const OrderingTerms& terms) {
  std::int64_t ppm = 0;
  for (const DiscountStep& step : terms.discounts) ppm = std::max(ppm, step.percent.ppm);
  return ppm;
}

// How much more an order of a supplier may cost, beyond the goods and their tax, than one of fewer goods: fees that
// rise with the order's value, and discounts that end.
std::int64_t most_jump(const OrderingTerms& terms) {
  const std::vector<OrderBracket> brackets = order_brackets(terms);
  std::int64_t charge = 0, discount = 0;
  for (std::size_t j = 0; j < brackets.size(); ++j) {
    for (std::size_t i = 0; i < j; ++i) {
      charge = std::max(charge, brackets[j].charge - brackets[i].charge);
      const std::int64_t ended = std::max<std::int64_t>(0, brackets[i].discount_ppm - brackets[j].discount_ppm);
      if (ended > 0) discount = std::max(discount, rounded_up(ended, brackets[j].from) + 1);
    }
  }
  const std::int64_t jump = charge + discount;
  return jump == 0 ? 0 : jump + rounded_up(terms.tax.ppm, jump) + 2;
}

// The most that a supplier can take off any order while the goods of the order fall by `goods`.
std::int64_t most_fall(const OrderingTerms& terms, std::int64_t goods) {
  return goods + rounded_up(terms.tax.ppm, goods) + most_jump(terms);
}

// By how much the goods of an order must grow to be surely no cheaper than before, when it starts from at least `low`
// and ends at most at `high`; nothing when it may not be delivered at first.
std::optional<std::int64_t> surely_no_cheaper(const OrderingTerms& terms, std::int64_t low, std::int64_t high) {
  std::int64_t charge = 0, discount = 0;
  const std::vector<OrderBracket> brackets = order_brackets(terms);
  std::int64_t from = low;
  for (std::size_t j = 0; j < brackets.size(); ++j) {
    if (brackets[j].to < low || brackets[j].from > high) continue;
    if (brackets[j].from > from) return std::nullopt;
    from = brackets[j].to + 1;
    for (std::size_t i = 0; i < j; ++i) {
      if (brackets[i].to < low) continue;
      charge = std::max(charge, brackets[i].charge - brackets[j].charge);
      discount = std::max(discount, brackets[j].discount_ppm - brackets[i].discount_ppm);
    }
  }
  if (charge == 0 && discount == 0) return 0;
  const std::int64_t kept = kMillion - greatest_discount(terms);
  if (kept <= 0) return std::nullopt;
  return ((charge + rounded_up(discount, high) + kRoundings) * kMillion + kept - 1) / kept;
}

// The turn of a bundle that the best order does not have.
class LosingBundle {
 public:
  LosingBundle(Answers& answers, const Offer& offer)
      : answers_(answers),
        offer_(offer),
        terms_(answers.book().catalogs[offer.catalog]->terms),
        bundle_(answers.book().catalogs[offer.catalog]->bundles[offer.bundle]),
        price_(bundle_.price.minor),
        target_(answers.best().total.minor),
        credits_(credits_of(bundle_).minor) {}

  // From today's price down: an order with the bundle tells at which price it would be cheaper; at one minor unit more
  // everything is bought anew, which shows that nothing with the bundle is cheaper there, or finds what is.
  Turn run(const Purchase& with, bool close_gaps) {
    Turn turn{std::nullopt, Money{surely_not_above(-price_, std::nullopt, with.proof.lower_bound.minor)}, false};
    std::optional<std::int64_t> pays = highest_paying(KnownOrder(answers_.book(), with, offer_, 0), -1);
    for (int step = 0; step < kMostSteps; ++step) {
      if (pays) turn.by = Money{*pays};
      const std::int64_t at = pays ? *pays + 1 : -price_;
      const Purchase order = at == 0 ? answers_.best() : bought_at(at);
      if (order.proof.lower_bound.minor >= target_) {
        turn.sure = Money{surely_not_above(at, at, with.proof.lower_bound.minor)};
        if (close_gaps) close_gap(at, turn);
        turn.exact = turn.sure.minor == at;
        return turn;
      }
      if (order.outcome != Outcome::bought || order.total.minor >= target_) return turn;
      pays = highest_paying(KnownOrder(answers_.book(), order, offer_, at), -1);
      if (!pays || *pays < at) return turn;
    }
    return turn;
  }

 private:
  Purchase bought_at(std::int64_t change) {
    Question question = answers_.question();
    question.moved = MovedPrice{offer_, Money{change}};
    question.cheaper = CheaperWith{offer_, Money{target_}};
    return answers_.ask(question, Money{});
  }

  // The highest change up to `top` at which the order costs less than the best one.
  std::optional<std::int64_t> highest_paying(const KnownOrder& order, std::int64_t top) const {
    if (order.count() == 0) return std::nullopt;
    const std::int64_t bottom = order.leaves_parts_out() ? credits_ - price_ : -price_;
    for (std::int64_t change = top; change >= std::max(bottom, top - kMostWalked); --change) {
      const auto cost = order.cost_at(change);
      if (cost && *cost < target_) return change;
    }
    return std::nullopt;
  }

  // The lowest change, down to `lowest`, from which on up to today's price nothing with the bundle is surely cheaper,
  // when nothing is at `proven_at`, and none costs less than `with` today. An order's cost falls with a rising price
  // only where a fee ends or a discount begins; and with a falling one by no more than the price of the bundles in it.
  std::int64_t surely_not_above(std::int64_t lowest, std::optional<std::int64_t> proven_at, std::int64_t with) const {
    std::int64_t sure = 1;
    const std::int64_t high = dearest_goods();
    if (proven_at) {
      const std::int64_t low = std::max<std::int64_t>(0, price_ + *proven_at - credits_);
      const auto more = surely_no_cheaper(terms_, low, high);
      if (more) sure = std::min(sure, *proven_at + *more);
    }
    if (with >= target_) sure = std::min(sure, certain_below(with, most_copies(lowest)));
    return std::max(sure, lowest);
  }

  // Between the two: at the lowest price of a range and under terms as kind as they are anywhere in it, an order with
  // the bundle must not be cheaper. What fails is tried in halves.
  void close_gap(std::int64_t at, Turn& turn) {
    const int most = turn.by ? kMostRanges : 1;  // nobody waits for a bundle that is dear even for nothing
    std::int64_t width = turn.by ? turn.sure.minor - at : (turn.sure.minor - at) / 2;
    for (int asked = 0; asked < most && width > 0 && turn.sure.minor > at; ++asked) {
      const std::int64_t from = std::max(at, turn.sure.minor - width);
      if (never_cheaper(from, turn.sure.minor - 1)) {
        turn.sure = Money{from};
      } else {
        width /= 2;
      }
    }
  }

  bool never_cheaper(std::int64_t from, std::int64_t to) {
    Question question = answers_.question();
    question.forced = offer_;
    question.moved = MovedPrice{offer_, Money{from}};
    const std::int64_t copies = most_copies(from);
    if (copies >= kUnknown) return false;
    question.eased = EasedTerms{offer_.catalog, Money{copies * (to - from)}, Money{dearest_goods()}};
    const Purchase order = answers_.ask(question, Money{});
    return order.outcome == Outcome::infeasible || order.proof.lower_bound.minor >= target_;
  }

  // No order of more goods is cheaper than the best.
  std::int64_t dearest_goods() const {
    const std::int64_t kept = kMillion - greatest_discount(terms_);
    return kept > 0 ? (target_ + 1) * kMillion / kept : kMostGoods;
  }

  // The lowest change such that no order of so many bundles is cheaper than the best at any change from there on, when
  // none of them costs less than `with` today.
  std::int64_t certain_below(std::int64_t with, std::int64_t copies) const {
    std::int64_t low = 0, high = price_;
    while (low < high) {
      const std::int64_t middle = low + (high - low + 1) / 2;
      if (with - most_fall(terms_, copies * middle) >= target_) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return -low;
  }

  // Bundles that an order may hold and still cost less than the best, when the price is changed so.
  std::int64_t most_copies(std::int64_t change) const {
    const std::int64_t kept = kMillion - greatest_discount(terms_);
    const std::int64_t each = price_ + change - credits_;
    std::int64_t most = std::min(bundle_.stock.value_or(kUnknown), worth_buying(change));
    if (each > 0 && kept > 0) most = std::min(most, (target_ + 1) * kMillion / kept / each);
    return std::clamp<std::int64_t>(most, 1, kUnknown);
  }

  // Some cheapest order holds no more than this (count_limits.h).
  std::int64_t worth_buying(std::int64_t change) const {
    Question question = answers_.question();
    question.moved = MovedPrice{offer_, Money{change}};
    const Variant variant = variant_of(answers_.book(), question);
    for (const BundleOffer& bundle : build_problem(variant.book, variant.limits).bundles) {
      if (bundle.catalog == offer_.catalog && bundle.bundle == offer_.bundle) return bundle.most;
    }
    return kUnknown;
  }

  Answers& answers_;
  Offer offer_;
  const OrderingTerms& terms_;
  const Bundle& bundle_;
  std::int64_t price_, target_, credits_;
};

}  // namespace

Turn turn_of_losing(Answers& answers, const Offer& bundle, const Purchase& with, bool close_gaps) {
  return LosingBundle(answers, bundle).run(with, close_gaps);
}

std::optional<Turn> turn_of_chosen(Answers& answers, const Offer& offer, const Purchase& without) {
  if (without.outcome == Outcome::infeasible) return Turn{std::nullopt, Money{}, true};
  if (!without.proof.proven || !answers.best().proof.proven) return std::nullopt;
  const std::int64_t target = without.total.minor;
  Turn turn;
  Purchase order = answers.best();
  std::int64_t at = 0;
  for (int step = 0; step < kMostSteps; ++step) {
    const KnownOrder known(answers.book(), order, offer, at);
    const std::int64_t end = at + kMostWalked;
    for (auto cost = known.cost_at(at); at < end && cost && *cost < target; cost = known.cost_at(at)) ++at;
    turn.sure = Money{at};
    if (at == end) return turn;
    if (at == 0) return Turn{Money{}, Money{}, true};
    Question question = answers.question();
    question.moved = MovedPrice{offer, Money{at}};
    if (offer.bundle >= 0) question.cheaper = CheaperWith{offer, Money{target}};
    order = answers.ask(question, Money{});
    if (order.proof.lower_bound.minor >= target) return Turn{Money{at}, Money{at}, true};
    if (order.outcome != Outcome::bought) return turn;
    if (order.total.minor >= target) return turn;
  }
  return turn;
}

}  // namespace teetally
