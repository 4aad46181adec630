#include "teetally/verify.h"

#include <fmt/format.h>

#include <algorithm>

#include "teetally/verify/parts.h"
#include "verify/check_cuts.h"
#include "verify/check_order.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostSteps = 1'000'000;
constexpr std::int64_t kMostRate = 1'000'000'000;
constexpr std::int64_t kMostCost = 100'000'000'000'000'000;  // in steps
constexpr std::int64_t kMostPaid = 1'000'000'000'000;        // where it may be below zero
constexpr std::size_t kMostListed = 4'000;
constexpr int kDeepest = 2'000;

bool has_coils(const StatedOrder& order, const Market& market) {
  return std::any_of(order.uses.begin(), order.uses.end(), [&](const StatedUse& use) {
    const Catalog& catalog = market.catalog(use.supplier);
    const auto is_length = [&](const BundleContent& content) {
      return content.item == use.item && content.length.tenths_mm > 0;
    };
    const std::vector<Pack>& packs = catalog.items[static_cast<std::size_t>(use.item)].packs;
    return std::any_of(packs.begin(), packs.end(), [](const Pack& pack) { return pack.length.tenths_mm > 0; }) ||
           std::any_of(catalog.bundles.begin(), catalog.bundles.end(), [&](const Bundle& bundle) {
             return std::any_of(bundle.contents.begin(), bundle.contents.end(), is_length);
           });
  });
}

// Follows the list of cases. Each side of a split is bounded by itself, and the sides leave nothing out.
class CaseWalk {
 public:
  CaseWalk(const Certificate& certificate, const Market& market, Diagnostics& diagnostics)
      : certificate_(certificate), bound_(certificate.bound), market_(market), diagnostics_(diagnostics) {}

  // In steps; never more than the order's cost.
  std::int64_t run() {
    least_ = cost_in_steps();
    CaseSpans spans = all_cases(market_);
    if (!walk(spans, 0)) return 0;
    if (next_ != bound_.cases.size()) {
      wrong(bound_.cases[next_].place, "this case stands behind the last one that a split asks for");
      return 0;
    }
    return least_;
  }

  std::size_t cases() const { return cases_; }
  std::size_t open() const { return open_; }

 private:
  std::int64_t cost_in_steps() const { return certificate_.order.cost * bound_.steps; }

  bool wrong(const Place& place, const std::string& message) {
    diagnostics_.error("verify/bad-cases", place, message).help =
        "a split is followed by the cases of its lower side, then by those of its upper side";
    return false;
  }

  bool walk(CaseSpans& spans, int depth) {
    if (next_ >= bound_.cases.size())
      return wrong(bound_.place, "the list of cases ends before every split has two sides");
    const StatedCase& at = bound_.cases[next_++];
    if (at.narrow) return narrow(at, spans, depth);
    if (at.prices >= 0) return bound_one(at, spans);
    std::vector<Span>& list = spans.of(at.by);
    if (at.which < 0 || static_cast<std::size_t>(at.which) >= list.size()) {
      return wrong(at.place, fmt::format("there is no number {} to split; there are {}", at.which, list.size()));
    }
    const auto which = static_cast<std::size_t>(at.which);
    if (depth > kDeepest) return wrong(at.place, "splits stand too deep within one another");
    const Span whole = list[which];
    list[which].to = std::min(whole.to, at.at - 1);
    const bool lower = walk(spans, depth + 1);
    spans.of(at.by)[which] = {std::max(whole.from, at.at), whole.to};
    const bool upper = lower && walk(spans, depth + 1);
    spans.of(at.by)[which] = whole;
    return upper;
  }

  bool has_prices(const StatedCase& at) {
    if (at.prices >= 0 && static_cast<std::size_t>(at.prices) < bound_.prices.size()) return true;
    return wrong(at.place, fmt::format("there are no prices number {}; there are {}", at.prices, bound_.prices.size()));
  }

  // What is left out costs as much as the order, as costs are whole.
  bool narrow(const StatedCase& at, const CaseSpans& spans, int depth) {
    if (!has_prices(at)) return false;
    if (depth > kDeepest) return wrong(at.place, "cases stand too deep within one another");
    CaseSpans left = spans;
    const OpenCase open(market_, spans, certificate_.order.cost);
    if (!open.closed()) {
      CaseParts(open, bound_.prices[static_cast<std::size_t>(at.prices)], bound_.steps)
          .narrow(left, cost_in_steps() - bound_.steps);
    }
    return walk(left, depth + 1);
  }

  bool bound_one(const StatedCase& at, const CaseSpans& spans) {
    if (!has_prices(at)) return false;
    ++cases_;
    const OpenCase open(market_, spans, certificate_.order.cost);
    if (open.closed()) return true;
    const std::int64_t least = open.bound(bound_.prices[static_cast<std::size_t>(at.prices)], bound_.steps);
    // A cost is whole: more than one minor unit below is at least the order's cost.
    if (least <= cost_in_steps() - bound_.steps) {
      ++open_;
      least_ = std::min(least_, least);
    }
    return true;
  }

  const Certificate& certificate_;
  const StatedBound& bound_;
  const Market& market_;
  Diagnostics& diagnostics_;
  std::size_t next_ = 0, cases_ = 0, open_ = 0;
  std::int64_t least_ = 0;
};

bool bad_prices(const PriceSplit& prices, const std::string& message, Diagnostics& diagnostics) {
  diagnostics.error("verify/bad-prices", prices.place, message);
  return false;
}

bool rates_can_be(const PriceSplit& prices, const Market& market, Diagnostics& diagnostics) {
  if (prices.rates.size() != market.catalogs.size()) {
    return bad_prices(prices,
                      fmt::format("found {} rates; expected one for each of {} suppliers", prices.rates.size(),
                                  market.catalogs.size()),
                      diagnostics);
  }
  for (const std::vector<StatedRate>& rates : prices.rates) {
    bool right = !rates.empty() && rates.front().from == 0;
    for (std::size_t j = 1; j < rates.size(); ++j) right = right && rates[j - 1].from < rates[j].from;
    if (!right) return bad_prices(prices, "expected rates from goods of 0 on, in rising order", diagnostics);
    if (std::any_of(rates.begin(), rates.end(), [](const StatedRate& r) { return r.rate < 0 || r.rate > kMostRate; })) {
      return bad_prices(prices, fmt::format("a rate is larger than {}", kMostRate), diagnostics);
    }
  }
  return true;
}

bool listed_can_be(const std::vector<std::int64_t>& values) {
  return std::all_of(values.begin(), values.end(),
                     [](std::int64_t value) { return value >= -kMostPaid && value <= kMostPaid; });
}

// Lists are for what every bundle brings.
bool shares_can_be(const PriceSplit& prices, const Market& market, Diagnostics& diagnostics) {
  bool right = prices.shares.size() == market.bundles.size();
  for (std::size_t b = 0; right && b < market.bundles.size(); ++b) {
    right = prices.shares[b].size() == shares_of(market.bundle(b));
    std::size_t share = 0;
    for (const BundleContent& content : market.bundle(b).contents) {
      const bool always = is_always_taken(market, b, content);
      for (std::size_t i = 0; right && i <= content.swaps.size(); ++i, ++share) {
        const StatedShare& paid = prices.shares[b][share];
        right = paid.each >= 0 && paid.each <= kDearest && paid.first >= 0 && paid.first <= kMostPaid &&
                paid.values.size() <= kMostListed && (paid.values.empty() || always) && listed_can_be(paid.values);
      }
    }
  }
  return right ||
         bad_prices(prices, "expected a share, zero or more, for each content and swap of each bundle", diagnostics);
}

bool calls_can_be(const PriceSplit& prices, const Market& market, Diagnostics& diagnostics) {
  bool right = prices.calls.empty() || prices.calls.size() == market.catalogs.size();
  for (std::size_t s = 0; right && s < prices.calls.size(); ++s) {
    const auto& of = prices.calls[s];
    right = (of.empty() || of.size() == market.question.needs.size()) &&
            std::all_of(of.begin(), of.end(), [&](const std::vector<std::int64_t>& values) {
              return values.size() == prices.rates[s].size() + 1 && listed_can_be(values);
            });
  }
  return right || bad_prices(prices, "expected what each need pays for no order and for each rate", diagnostics);
}

bool prices_can_be(const Certificate& certificate, const Market& market, Diagnostics& diagnostics) {
  const StatedBound& bound = certificate.bound;
  const auto wrong = [&](const Place& place, const std::string& message) {
    diagnostics.error("verify/bad-prices", place, message);
    return false;
  };
  if (bound.steps < 1 || bound.steps > kMostSteps) {
    return wrong(bound.place, fmt::format("a minor unit has {} steps; expected 1 to {}", bound.steps, kMostSteps));
  }
  if (certificate.order.cost < 0 || certificate.order.cost > kMostCost / bound.steps) {
    return wrong(bound.place, "the order is too dear for so many steps in a minor unit");
  }
  return std::all_of(bound.prices.begin(), bound.prices.end(), [&](const PriceSplit& prices) {
    return rates_can_be(prices, market, diagnostics) && shares_can_be(prices, market, diagnostics) &&
           calls_can_be(prices, market, diagnostics);
  });
}

}  // namespace

Verified follow_cases(const Certificate& certificate, const std::vector<const Catalog*>& catalogs,
                      Diagnostics& diagnostics) {
  Verified verified;
  verified.cost = {certificate.order.cost};
  const Market market = open_market(certificate.question, catalogs);
  if (diagnostics.has_errors() || !prices_can_be(certificate, market, diagnostics)) return verified;
  CaseWalk walk(certificate, market, diagnostics);
  const std::int64_t least = walk.run();
  if (diagnostics.has_errors()) return verified;
  const std::int64_t steps = certificate.bound.steps;
  verified.at_least = {std::clamp<std::int64_t>(least <= 0 ? 0 : (least + steps - 1) / steps, 0, verified.cost.minor)};
  verified.proven = verified.at_least == verified.cost;
  verified.cases = walk.cases();
  verified.open = walk.open();
  verified.cut_unchecked = certificate.order.coils.empty() && has_coils(certificate.order, market);
  const std::vector<StatedNeed>& needs = certificate.question.needs;
  verified.joins_unchecked = !certificate.order.coils.empty() &&
                             std::any_of(needs.begin(), needs.end(), [](const auto& need) { return need.joined > 0; });
  if (certificate.bound.at_least > verified.at_least.minor) {
    Diagnostic& error =
        diagnostics.error("verify/bound-not-reached", certificate.bound.place,
                          fmt::format("the cases show that no order costs less than {} minor units, not {}",
                                      verified.at_least.minor, certificate.bound.at_least));
    error.help = "use the catalogs of the day the certificate was made, or buy again";
  }
  return verified;
}

Verified verify(const Certificate& certificate, const std::vector<const Catalog*>& catalogs, Diagnostics& diagnostics) {
  check_stated_order(certificate, catalogs, diagnostics);
  check_stated_cuts(certificate, catalogs, diagnostics);
  return follow_cases(certificate, catalogs, diagnostics);
}

}  // namespace teetally
