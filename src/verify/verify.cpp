#include "teetally/verify.h"

#include <fmt/format.h>

#include <algorithm>

#include "teetally/verify/bound.h"
#include "verify/check_cuts.h"
#include "verify/check_order.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostSteps = 1'000'000;
constexpr std::int64_t kMostRate = 1'000'000'000;
constexpr std::int64_t kMostCost = 100'000'000'000'000'000;  // in steps
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

  bool bound_one(const StatedCase& at, const CaseSpans& spans) {
    if (static_cast<std::size_t>(at.prices) >= bound_.prices.size()) {
      return wrong(at.place,
                   fmt::format("there are no prices number {}; there are {}", at.prices, bound_.prices.size()));
    }
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
  const auto outside = [](const std::vector<std::int64_t>& list, std::int64_t most) {
    return std::any_of(list.begin(), list.end(), [&](std::int64_t value) { return value < 0 || value > most; });
  };
  for (const PriceSplit& prices : bound.prices) {
    if (prices.rates.size() != market.catalogs.size()) {
      return wrong(prices.place, fmt::format("found {} rates; expected one for each of {} suppliers",
                                             prices.rates.size(), market.catalogs.size()));
    }
    if (outside(prices.rates, kMostRate)) {
      return wrong(prices.place, fmt::format("a rate is larger than {}", kMostRate));
    }
    bool right = prices.shares.size() == market.bundles.size();
    for (std::size_t b = 0; right && b < market.bundles.size(); ++b) {
      right = prices.shares[b].size() == shares_of(market.bundle(b)) && !outside(prices.shares[b], kDearest);
    }
    if (!right) return wrong(prices.place, "expected a share, zero or more, for each content and swap of each bundle");
  }
  return true;
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
