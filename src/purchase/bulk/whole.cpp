// The bound that keeps packs whole: one price for each supplier's goods, whatever state it is in; bundles split what
// they cost among their parts; then each need by itself is covered by whole packs and parts as cheaply as can be.
#include <algorithm>
#include <array>
#include <limits>
#include <map>

#include "purchase/bulk/cover.h"
#include "purchase/bulk/worth.h"

namespace teetally {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

class WholeBounding {
 public:
  WholeBounding(const BulkView& view, const AllowedStates& allowed, const BulkPrices& prices)
      : view_(view),
        problem_(*view.problem),
        allowed_(allowed),
        prices_(prices),
        worth_(worth_in_bulk(view, prices)),
        covers_(problem_.needs.size()),
        by_rule_(problem_.cut_rules.size()) {
    find_alone();
  }

  double run() {
    for (const std::uint64_t states : allowed_) {
      if (states == 0) return kNever;
    }
    find_in_rules();
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) add_supplier(s);
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) add_pack(p);
    for (std::size_t n = 0; n < problem_.needs.size(); ++n) {
      const double least = alone_[n] ? least_alone(n) : prices_.need[n] * static_cast<double>(problem_.needs[n]);
      if (least >= kNever) return kNever;
      sum_.add(least);
    }
    for (const int r : view_.rules) {
      if (!is_linear(r)) continue;
      sum_.add(prices_.rule[r] * static_cast<double>(problem_.cut_rules[r].any_of[0].least));
    }
    for (std::size_t j = 0; j < problem_.joins.size(); ++j) {
      if (worth_.joins[j] <= 0) continue;
      const double each = prices_.need[problem_.joins[j].need] - worth_.joins[j];
      sum_.add(std::min(0.0, each * static_cast<double>(problem_.joins[j].most)));
    }
    return sum_.least();
  }

 private:
  // Needs whose products serve nothing else, and rules about the coils of one such need. Other rules that are priced
  // make the needs they touch be priced too.
  void find_alone() {
    alone_.assign(problem_.needs.size(), true);
    for (const auto& needs : view_.needs_of) {
      for (const int need : needs) alone_[need] = alone_[need] && needs.size() == 1;
    }
    rule_of_.assign(problem_.cut_rules.size(), -1);
    for (const int r : view_.rules) rule_of_[r] = only_need(problem_.cut_rules[r].any_of[0]);
    for (const int r : view_.rules) {
      if (rule_of_[r] >= 0 || prices_.rule[r] <= 0) continue;
      for (const CountTerm& term : problem_.cut_rules[r].any_of[0].terms) {
        for (const int need : needs_of(term)) alone_[need] = false;
      }
    }
  }
  std::vector<int> needs_of(const CountTerm& term) const {
    if (term.join >= 0) return {problem_.joins[term.join].need};
    int product = term.pack >= 0 ? problem_.packs[term.pack].product : -1;
    if (term.bundle >= 0) {
      const BundlePart& part = problem_.bundles[term.bundle].parts[term.part];
      product = term.choice < 0 ? part.product : part.choices[term.choice].product;
    }
    return product < 0 ? std::vector<int>{} : view_.needs_of[product];
  }
  // The one need that all the sum's terms serve, if there is one that nothing else is joined with.
  int only_need(const Reach& reach) const {
    int only = -1;
    for (const CountTerm& term : reach.terms) {
      const std::vector<int> needs = needs_of(term);
      if (term.join >= 0 || needs.size() != 1 || (only >= 0 && needs[0] != only)) return -1;
      only = needs[0];
    }
    return only >= 0 && alone_[only] ? only : -1;
  }
  bool covers_alone(int product) const {
    return product >= 0 && view_.needs_of[product].size() == 1 && alone_[view_.needs_of[product][0]];
  }

  // With its goods at this price, what the supplier's states cost beside at least.
  double beside_goods(std::size_t s, double rate) const {
    double least = (allowed_[s] & 1U) != 0 ? 0 : kNever;
    for (std::size_t k = 1; k < view_.states[s].size(); ++k) {
      if ((allowed_[s] >> k & 1U) == 0) continue;
      const BulkState& state = view_.states[s][k];
      CarefulSum sum;
      sum.add(state.fixed);
      sum.add((state.rate - rate) * (state.rate >= rate ? state.from : state.to));
      least = std::min(least, sum.least());
    }
    return least;
  }

  void add_supplier(std::size_t s) {
    rate_.push_back(0);
    if ((allowed_[s] & ~std::uint64_t{1}) == 0) return;
    double most = 0;
    for (const BulkState& state : view_.states[s]) most = std::max(most, state.rate);
    const auto value = [&](double rate) {
      double sum = beside_goods(s, rate);
      for (const BulkPack& pack : worth_.packs[s]) sum += least_of(problem_.packs[pack.pack], pack.worth, rate);
      for (const BulkBundle& bundle : worth_.bundles[s]) sum += least_of(bundle, rate);
      return sum;
    };
    Highest best = highest(value, 0, most);
    for (const BulkState& state : view_.states[s]) {
      if (const double own = value(state.rate); own >= best.value) best = {state.rate, own};
    }
    rate_.back() = best.at;
    sum_.add(beside_goods(s, best.at));
    for (const BulkBundle& bundle : worth_.bundles[s]) add_bundle(bundle, best.at);
    for (const BulkPack& pack : worth_.packs[s]) {
      const PackOffer& offer = problem_.packs[pack.pack];
      if (!covers_alone(offer.product)) sum_.add(least_of(offer, pack.worth, best.at));
    }
  }

  void add_pack(std::size_t p) {
    const PackOffer& offer = problem_.packs[p];
    if (!covers_alone(offer.product) || (allowed_[offer.supplier] & ~std::uint64_t{1}) == 0) return;
    cover(offer.product, offer.content, rate_[offer.supplier] * least_price_of_lot(offer),
          {static_cast<int>(p), -1, -1, -1});
  }

  // Something that can be bought for a need by itself, and what it counts in the rules about that need.
  void cover(int product, std::int64_t content, double price, std::array<int, 4> counted) {
    const int need = view_.needs_of[product][0];
    covers_[need].push_back({content, price});
    const auto found = in_rules_.find(counted);
    if (found == in_rules_.end()) return;
    for (const auto& [rule, each] : found->second) by_rule_[rule].push_back({each, price});
  }
  void find_in_rules() {
    for (const int r : view_.rules) {
      if (rule_of_[r] < 0 || !alone_[rule_of_[r]]) continue;
      for (const CountTerm& term : problem_.cut_rules[r].any_of[0].terms) {
        if (term.each > 0) in_rules_[{term.pack, term.bundle, term.part, term.choice}].emplace_back(r, term.each);
      }
    }
  }
  // A rule that is not a cover of one need by itself.
  bool is_linear(int r) const { return rule_of_[r] < 0 || !alone_[rule_of_[r]]; }

  double least_alone(std::size_t n) {
    double least = least_cover(std::move(covers_[n]), problem_.needs[n]);
    for (const int r : view_.rules) {
      if (is_linear(r) || rule_of_[r] != static_cast<int>(n)) continue;
      least = std::max(least, least_cover(std::move(by_rule_[r]), problem_.cut_rules[r].any_of[0].least));
    }
    return least;
  }

  // What the bundle costs more than its parts are worth is shared among those that cover needs by themselves.
  void add_bundle(const BulkBundle& bundle, double rate) {
    CarefulSum rest;
    rest.add(rate * bundle.price);
    double shared = 0, all = 0;
    for (const auto& ways : bundle.parts) {
      const double worth = best_way(ways, rate);
      all += worth;
      if (worth > 0 && any_alone(ways)) shared += worth;
    }
    const double over = std::max(0.0, rate * bundle.price - all);
    for (std::size_t p = 0; p < bundle.parts.size(); ++p) {
      const std::vector<WayWorth>& ways = bundle.parts[p];
      const double worth = best_way(ways, rate);
      const double share = worth > 0 && any_alone(ways) ? worth * (1 + over / shared) : worth;
      rest.add(-share);
      for (std::size_t w = 0; w < ways.size(); ++w) {
        if (!covers_alone(ways[w].product)) continue;
        cover(ways[w].product, ways[w].content, std::max(0.0, share + rate * ways[w].extra),
              {-1, bundle.bundle, static_cast<int>(p), static_cast<int>(w) - 1});
      }
    }
    sum_.add(std::min(0.0, rest.least() * bundle.most));
  }
  bool any_alone(const std::vector<WayWorth>& ways) const {
    return std::any_of(ways.begin(), ways.end(), [&](const WayWorth& way) { return covers_alone(way.product); });
  }

  const BulkView& view_;
  const PurchaseProblem& problem_;
  const AllowedStates& allowed_;
  const BulkPrices& prices_;
  BulkWorth worth_;
  std::vector<bool> alone_;                     // by need
  std::vector<int> rule_of_;                    // by rule: the need it covers by itself; or -1
  std::vector<std::vector<CoverItem>> covers_;  // by need
  std::vector<std::vector<CoverItem>> by_rule_;
  std::map<std::array<int, 4>, std::vector<std::pair<int, std::int64_t>>> in_rules_;  // pack, bundle, part, choice
  std::vector<double> rate_;                                                          // by supplier
  CarefulSum sum_;
};

}  // namespace

double whole_bound_in_bulk(const BulkView& view, const AllowedStates& allowed, const BulkPrices& prices) {
  return WholeBounding(view, allowed, prices).run();
}

}  // namespace teetally
