#include "purchase/bulk/worth.h"

#include <algorithm>
#include <cmath>

namespace teetally {
namespace {

class Valuing {
 public:
  Valuing(const BulkView& view, const BulkPrices& prices)
      : view_(view), problem_(*view.problem), prices_(prices), to_rules_(problem_.packs.size(), 0) {
    worth_.packs.resize(problem_.suppliers.size());
    worth_.bundles.resize(problem_.suppliers.size());
    worth_.joins.assign(problem_.joins.size(), 0);
    for (const BundleOffer& offer : problem_.bundles) {
      auto& parts = parts_to_rules_.emplace_back();
      for (const BundlePart& part : offer.parts) parts.emplace_back(part.choices.size() + 1, 0.0);
    }
  }

  BulkWorth run() {
    for (const int r : view_.rules) add_rule(r);
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) {
      const PackOffer& offer = problem_.packs[p];
      const double worth = of(offer.product, offer.content) + to_rules_[p];
      if (worth > 0) worth_.packs[offer.supplier].push_back({static_cast<int>(p), worth});
    }
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) add_bundle(b);
    return std::move(worth_);
  }

 private:
  double of(int product, std::int64_t content) const {
    double best = 0;
    if (product < 0) return best;
    for (const int need : view_.needs_of[product]) best = std::max(best, prices_.need[need]);
    return best * static_cast<double>(content);
  }

  void add_rule(int r) {
    for (const CountTerm& term : problem_.cut_rules[r].any_of[0].terms) {
      double& worth = term.pack >= 0   ? to_rules_[term.pack]
                      : term.join >= 0 ? worth_.joins[term.join]
                                       : parts_to_rules_[term.bundle][term.part][term.choice + 1];
      worth += prices_.rule[r] * static_cast<double>(term.each);
    }
  }

  void add_bundle(std::size_t b) {
    const BundleOffer& offer = problem_.bundles[b];
    BulkBundle bundle{static_cast<int>(b), static_cast<double>(offer.price), static_cast<double>(offer.most), {}};
    for (std::size_t p = 0; p < offer.parts.size(); ++p) {
      const BundlePart& part = offer.parts[p];
      const std::vector<double>& to_rules = parts_to_rules_[b][p];
      std::vector<WayWorth>& ways = bundle.parts.emplace_back();
      ways.push_back({part.product, part.content, of(part.product, part.content) + to_rules[0], 0});
      for (std::size_t c = 0; c < part.choices.size(); ++c) {
        const BundleChoice& choice = part.choices[c];
        ways.push_back({choice.product, part.content, of(choice.product, part.content) + to_rules[c + 1],
                        static_cast<double>(choice.extra)});
      }
    }
    worth_.bundles[offer.supplier].push_back(std::move(bundle));
  }

  const BulkView& view_;
  const PurchaseProblem& problem_;
  const BulkPrices& prices_;
  BulkWorth worth_;
  std::vector<double> to_rules_;                                  // by pack
  std::vector<std::vector<std::vector<double>>> parts_to_rules_;  // by bundle, part, way
};

// At the ends of every step of the price, where whatever is linear between them is least.
template <typename Note>
void at_ends(const PackOffer& offer, Note note) {
  for (std::size_t i = 0; i < offer.prices.size(); ++i) {
    const LotPrice& step = offer.prices[i];
    const std::int64_t last = i + 1 < offer.prices.size() ? offer.prices[i + 1].from - 1 : offer.most;
    for (const std::int64_t lots : {step.from, last}) {
      if (lots <= offer.most) note(static_cast<double>(step.base + step.each * lots), static_cast<double>(lots));
    }
  }
}

}  // namespace

void CarefulSum::add(double term) {
  sum_ += term;
  size_ += std::abs(term);
  ++terms_;
}

// Each term comes from at most ten roundings, and each addition rounds once.
double CarefulSum::least() const { return sum_ - size_ * (terms_ + 10) * std::numeric_limits<double>::epsilon(); }

BulkWorth worth_in_bulk(const BulkView& view, const BulkPrices& prices) { return Valuing(view, prices).run(); }

double least_price_of_lot(const PackOffer& offer) {
  double least = std::numeric_limits<double>::infinity();
  at_ends(offer, [&](double price, double lots) { least = std::min(least, price / lots); });
  return least;
}

double least_of(const PackOffer& offer, double worth, double rate) {
  double least = 0;
  at_ends(offer, [&](double price, double lots) { least = std::min(least, rate * price - worth * lots); });
  return least;
}

double best_way(const std::vector<WayWorth>& ways, double rate) {
  double best = -std::numeric_limits<double>::infinity();
  for (const WayWorth& way : ways) best = std::max(best, way.worth - rate * way.extra);
  return best;
}

double least_of(const BulkBundle& bundle, double rate) {
  double each = rate * bundle.price;
  for (const auto& ways : bundle.parts) each -= best_way(ways, rate);
  return each < 0 ? each * bundle.most : 0;
}

}  // namespace teetally
