#include "purchase/why_prices.h"

#include <algorithm>

#include "purchase/build_problem.h"
#include "purchase/order_terms.h"
#include "purchase/plan.h"

namespace teetally {
namespace {

constexpr std::int64_t kMillion = 1'000'000;
constexpr int kMostSteps = 4;                    // answers asked for one turn of one count of bundles
constexpr std::int64_t kMostCopies = 2;          // counts of bundles settled one by one
constexpr std::int64_t kLeastProgress = 50;      // a step must settle this part of the price, or it is the last
constexpr std::int64_t kMostWalked = 2'000'000;  // prices tried on one known order

std::int64_t rounded_up(std::int64_t ppm, std::int64_t amount) { return (ppm * amount + kMillion - 1) / kMillion; }

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

// The most that a bundle's supplier can take off any order while the goods of the order fall by `goods`.
std::int64_t most_fall(const OrderingTerms& terms, std::int64_t goods) {
  return goods + rounded_up(terms.tax.ppm, goods) + most_jump(terms);
}

// More goods never cost less: no fee is waived, no discount begins, and nothing is too little to be delivered.
bool always_rises(const OrderingTerms& terms) {
  const std::vector<OrderBracket> brackets = order_brackets(terms);
  return brackets.size() == 1 && brackets.front().from == 0;
}

// The lowest change, down to -price, such that no order of `copies` bundles costs as little as `target` at any change
// from there to `from`, where the cheapest costs `cost` (more than the target).
std::int64_t certain_below(const OrderingTerms& terms, std::int64_t from, std::int64_t cost, std::int64_t copies,
                           std::int64_t target, std::int64_t price) {
  std::int64_t low = 0, high = from + price;  // steps that are surely safe, and the most there can be
  while (low < high) {
    const std::int64_t middle = low + (high - low + 1) / 2;
    if (cost - most_fall(terms, copies * middle) > target) {
      low = middle;
    } else {
      high = middle - 1;
    }
  }
  return from - low;
}

// What one known order costs as the price of an offer moves.
class KnownOrder {
 public:
  // `purchase` is priced as at the change `at`.
  KnownOrder(const OfferBook& book, const Purchase& purchase, const Offer& offer, std::int64_t at) {
    for (const SupplierOrder& order : purchase.orders) {
      if (order.catalog != offer.catalog) {
        others_ += order.cost.total.minor;
        continue;
      }
      terms_ = &book.catalogs[order.catalog]->terms;
      goods_ = order.cost.goods.minor;
      for (const OrderLine& line : order.lines) {
        const bool same = offer.bundle >= 0 ? line.bundle == offer.bundle
                                            : line.bundle < 0 && line.item == offer.item && line.pack == offer.pack;
        if (!same) continue;
        count_ += line.count;
        for (const BundleChange& change : line.changes) changed_ = changed_ || change.swap < 0;
      }
      goods_ -= count_ * at;
    }
  }
  std::int64_t count() const { return count_; }
  bool leaves_parts_out() const { return changed_; }
  // No engine considers an order below the supplier's minimum; nor do we.
  std::optional<std::int64_t> cost_at(std::int64_t change) const {
    const std::int64_t goods = goods_ + count_ * change;
    if (terms_ == nullptr || goods < 0) return std::nullopt;
    const OrderCost cost = landed_cost(*terms_, Money{goods});
    if (terms_->minimum_order && cost.goods - cost.discount < *terms_->minimum_order) return std::nullopt;
    return others_ + cost.total.minor;
  }

 private:
  const OrderingTerms* terms_ = nullptr;
  std::int64_t others_ = 0, goods_ = 0, count_ = 0;
  bool changed_ = false;
};

// The turn of a bundle taken exactly, or at least, so many times.
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

  Turn run(const Purchase& with) {
    if (with.total.minor <= target_) return Turn{Money{}, Money{1}, true};
    return always_rises(terms_) ? rising(with) : counted_one_by_one(with);
  }

 private:
  static constexpr std::int64_t kUnknown = kMillion;

  // Where the cost rises with the price, one price at which the bundle does not pay decides all above it.
  Turn rising(const Purchase& with) {
    const std::int64_t lowest = credits_ > 0 ? credits_ - price_ : -price_;
    Purchase order = with;
    std::int64_t at = 0;
    Turn turn{std::nullopt, Money{1}, false};
    for (int step = 0; step <= kMostSteps; ++step) {
      const auto paying = highest_paying(KnownOrder(answers_.book(), order, offer_, at), -1);
      if (paying && (!turn.by || Money{*paying} > *turn.by)) turn.by = Money{*paying};
      at = turn.by ? turn.by->minor + 1 : lowest;
      order = ask(1, std::nullopt, at, {});
      if (order.outcome == Outcome::infeasible || order.proof.lower_bound.minor > target_) {
        turn.sure = Money{at};
        turn.exact = (turn.by.has_value() && at >= lowest) || at == -price_;
        return turn;
      }
      if (order.outcome != Outcome::bought || order.total.minor > target_) return turn;
    }
    return turn;
  }

  Turn counted_one_by_one(const Purchase& with) {
    Turn turn;
    turn.exact = true;
    turn.sure = Money{-price_};
    Purchase rest = with;  // the cheapest order with at least `copies` bundles
    for (std::int64_t copies = 1;; ++copies) {
      take(turn, turn_of(copies, rest.proof.lower_bound));
      const std::int64_t above = turn.sure.minor;
      const std::int64_t most = most_copies(above);
      if (most <= copies) return turn;
      rest = ask(copies + 1, std::nullopt, 0, with.proof.lower_bound);
      if (rest.outcome == Outcome::infeasible) return turn;
      const std::int64_t bound = rest.proof.lower_bound.minor;
      const std::int64_t sure = bound > target_ ? certain_below(terms_, 0, bound, most, target_, price_) : 1;
      if (sure <= above) return turn;
      if (copies == kMostCopies || most == kUnknown) {
        turn.exact = false;
        turn.sure = std::max(turn.sure, Money{sure});
        return turn;
      }
    }
  }

  Purchase ask(std::int64_t least, std::optional<std::int64_t> most, std::int64_t change, Money at_least) {
    Question question = answers_.question();
    question.forced = ForcedBundle{offer_, least, most};
    if (change != 0) question.moved = MovedPrice{offer_, Money{change}};
    return answers_.ask(question, at_least);
  }

  // The wider of two turns: the higher paying price, the less that is sure.
  static void take(Turn& turn, const Turn& other) {
    if (other.by && (!turn.by || *other.by > *turn.by)) turn.by = other.by;
    turn.sure = std::max(turn.sure, other.sure);
    turn.exact = turn.exact && other.exact;
  }

  // Bundles that an order may hold and still cost no more than the target, when the price is changed so.
  std::int64_t most_copies(std::int64_t change) const {
    std::int64_t kept = kMillion;
    for (const DiscountStep& step : terms_.discounts) kept = std::min(kept, kMillion - step.percent.ppm);
    const std::int64_t each = price_ + change - credits_;
    std::int64_t most = std::min(bundle_.stock.value_or(kUnknown), worth_buying(change));
    if (each > 0 && kept > 0) most = std::min(most, (target_ + 1) * kMillion / kept / each);
    return std::min(most, kUnknown);
  }

  // Some cheapest order holds no more than this (count_limits.h).
  std::int64_t worth_buying(std::int64_t change) const {
    Question question = answers_.question();
    question.moved = MovedPrice{offer_, Money{change}};
    const Variant variant = variant_of(answers_.book(), question);
    for (const BundleOffer& bundle : build_problem(variant.book, variant.limits).bundles) {
      if (bundle.catalog == offer_.catalog && bundle.bundle == offer_.bundle)
        return std::max<std::int64_t>(1, bundle.most);
    }
    return kUnknown;
  }

  // The highest change up to `top` at which the order costs no more than the target.
  std::optional<std::int64_t> highest_paying(const KnownOrder& order, std::int64_t top) const {
    const std::int64_t bottom = order.leaves_parts_out() ? credits_ - price_ : -price_;
    for (std::int64_t change = top; change >= std::max(bottom, top - kMostWalked); --change) {
      const auto cost = order.cost_at(change);
      if (cost && *cost <= target_) return change;
    }
    return std::nullopt;
  }

  Turn turn_of(std::int64_t copies, Money at_least) {
    std::int64_t at = 0;
    std::optional<std::int64_t> paying;
    Turn turn;
    turn.sure = Money{1};  // nothing is sure yet, not even today's price
    for (int step = 0; step <= kMostSteps; ++step) {
      const Purchase answer = ask(copies, copies, at, at_least);
      at_least = Money{};
      if (answer.outcome == Outcome::infeasible) return Turn{std::nullopt, Money{-price_}, true};
      if (answer.outcome == Outcome::bought) {
        if (answer.total.minor <= target_) {
          turn.by = Money{at};
          turn.exact = turn.sure.minor == at + 1;
          return turn;
        }
        const KnownOrder order(answers_.book(), answer, offer_, at);
        const auto known = highest_paying(order, at - 1);
        if (known && (!paying || *known > *paying)) paying = known;
      }
      if (paying) turn.by = Money{*paying};
      if (answer.proof.lower_bound.minor <= target_) return turn;
      const std::int64_t sure = certain_below(terms_, at, answer.proof.lower_bound.minor, copies, target_, price_);
      turn.sure = Money{sure};
      if (sure == -price_ || (paying && *paying == sure - 1)) {
        turn.exact = true;
        return turn;
      }
      // Where fees rise with the order there may be no certainty to be had nearer than the rise itself.
      if (step > 0 && (at - sure) * kLeastProgress < price_) return turn;
      at = sure - 1;
    }
    return turn;
  }

  Answers& answers_;
  Offer offer_;
  const OrderingTerms& terms_;
  const Bundle& bundle_;
  std::int64_t price_, target_, credits_;
};

}  // namespace

Turn turn_of_losing(Answers& answers, const Offer& bundle, const Purchase& with) {
  return LosingBundle(answers, bundle).run(with);
}

std::optional<Turn> turn_of_chosen(Answers& answers, const Offer& offer, const Purchase& without) {
  if (without.outcome == Outcome::infeasible) return Turn{std::nullopt, Money{}, true};
  if (!without.proof.proven || !answers.best().proof.proven) return std::nullopt;
  const std::int64_t target = without.total.minor;
  Turn turn;
  Purchase order = answers.best();
  std::int64_t at = 0;
  for (int step = 0; step <= kMostSteps; ++step) {
    const KnownOrder known(answers.book(), order, offer, at);
    const std::int64_t end = at + kMostWalked;
    for (auto cost = known.cost_at(at); at < end && cost && *cost < target; cost = known.cost_at(at)) ++at;
    turn.sure = Money{at};
    if (at == end) return turn;
    if (at == 0) return Turn{Money{}, Money{}, true};
    Question question = answers.question();
    question.moved = MovedPrice{offer, Money{at}};
    order = answers.ask(question, Money{});
    if (order.outcome != Outcome::bought) return turn;
    if (order.proof.lower_bound.minor >= target) {
      return Turn{Money{at}, Money{at}, true};
    }
    if (order.total.minor >= target) return turn;
  }
  return turn;
}

}  // namespace teetally
