// The relaxation as a linear program: fractions of packs and bundles, and of the states of each supplier.
#include <algorithm>
#include <limits>
#include <map>

#include "purchase/bulk/view.h"
#include "purchase/solver.h"

namespace teetally {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr double kGoodsUnit = 1000;  // minor units of goods in one unit of a column, to keep numbers of like size
constexpr double kShortage = 10;     // what a unit that nothing serves costs: so many times the dearest offer
constexpr double kRuleShortage = 1e5;

double real(std::int64_t n) { return static_cast<double>(n); }

class Relaxing {
 public:
  Relaxing(const BulkView& view, const AllowedStates& allowed)
      : view_(view), problem_(*view.problem), allowed_(allowed), supply_(problem_.products.size()) {
    goods_row_.resize(problem_.suppliers.size());
    rule_row_.resize(problem_.cut_rules.size());
  }

  std::optional<BulkAnswer> run() {
    add_suppliers();
    for (std::size_t p = 0; p < problem_.packs.size(); ++p) add_pack(p);
    for (std::size_t b = 0; b < problem_.bundles.size(); ++b) add_bundle(b);
    for (const JoinOffer& join : problem_.joins) joins_.push_back(column(0, real(join.most)));
    add_rule_terms();
    const int first_need = static_cast<int>(model_.rows.size());
    add_needs();
    const int first_rule = static_cast<int>(model_.rows.size());
    for (const int r : view_.rules) row(real(problem_.cut_rules[r].any_of[0].least), kInfinite, rule_row_[r]);
    add_goods();
    const RelaxedAnswer solved = solve_relaxed(model_, model_.cost);
    if (!solved.optimal) return std::nullopt;
    return answer(solved, first_need, first_rule);
  }

 private:
  int column(double low, double high) {
    model_.columns.push_back({low, high, false, 9});
    return static_cast<int>(model_.columns.size()) - 1;
  }
  void row(double low, double high, Terms terms) { model_.rows.push_back({low, high, std::move(terms)}); }

  struct StateColumns {
    int in = -1, goods = -1;
  };

  void add_suppliers() {
    states_.resize(problem_.suppliers.size());
    Terms used;
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) {
      Terms one;
      states_[s].resize(view_.states[s].size());
      for (std::size_t k = 0; k < view_.states[s].size(); ++k) {
        if ((allowed_[s] >> k & 1U) == 0) continue;
        const BulkState& state = view_.states[s][k];
        StateColumns& columns = states_[s][k];
        columns.in = column(0, 1);
        one.emplace_back(columns.in, 1.0);
        if (k == 0) continue;
        columns.goods = column(0, state.to / kGoodsUnit);
        model_.cost.emplace_back(columns.in, state.fixed);
        model_.cost.emplace_back(columns.goods, state.rate * kGoodsUnit);
        row(0, kInfinite, {{columns.goods, 1.0}, {columns.in, -state.from / kGoodsUnit}});
        row(-kInfinite, 0, {{columns.goods, 1.0}, {columns.in, -state.to / kGoodsUnit}});
        goods_row_[s].emplace_back(columns.goods, -1.0);
        if (problem_.suppliers[s].counts) used.emplace_back(columns.in, 1.0);
      }
      row(1, 1, one);
    }
    if (problem_.most_suppliers) row(-kInfinite, *problem_.most_suppliers, used);
  }

  bool of_use(int product) const { return product >= 0 && !view_.needs_of[product].empty(); }
  bool may_use(int supplier) const { return (allowed_[supplier] & ~std::uint64_t{1}) != 0; }

  // The least that a lot costs, however many are bought.
  static double least_each(const PackOffer& offer) {
    double least = kInfinite;
    for (std::size_t i = 0; i < offer.prices.size(); ++i) {
      const LotPrice& step = offer.prices[i];
      const std::int64_t last = i + 1 < offer.prices.size() ? offer.prices[i + 1].from - 1 : offer.most;
      for (const std::int64_t lots : {step.from, last}) {
        if (lots <= offer.most) least = std::min(least, real(step.base + step.each * lots) / real(lots));
      }
    }
    return least;
  }

  void add_pack(std::size_t p) {
    const PackOffer& offer = problem_.packs[p];
    lots_.push_back(-1);
    if (!of_use(offer.product) || !may_use(offer.supplier)) return;
    const double each = least_each(offer);
    const int lots = lots_.back() = column(0, real(offer.most));
    goods_row_[offer.supplier].emplace_back(lots, each / kGoodsUnit);
    supply_[offer.product].emplace_back(lots, real(offer.content));
    for (const int need : view_.needs_of[offer.product]) {
      shortage_[need] = std::max(shortage_[need], kShortage * (each + 1) / real(offer.content));
    }
  }

  void add_bundle(std::size_t b) {
    const BundleOffer& offer = problem_.bundles[b];
    bundles_.push_back(-1);
    changed_.emplace_back();
    if (!may_use(offer.supplier) || offer.most == 0) return;
    const int count = bundles_.back() = column(0, real(offer.most));
    goods_row_[offer.supplier].emplace_back(count, real(offer.price) / kGoodsUnit);
    for (const BundlePart& part : offer.parts) {
      supply_[part.product].emplace_back(count, real(part.content));
      Terms changes{{count, -1.0}};
      for (const BundleChoice& choice : part.choices) {
        const int times = column(0, real(offer.most));
        changed_.back().push_back(times);
        changes.emplace_back(times, 1.0);
        goods_row_[offer.supplier].emplace_back(times, real(choice.extra) / kGoodsUnit);
        supply_[part.product].emplace_back(times, -real(part.content));
        if (choice.product >= 0) supply_[choice.product].emplace_back(times, real(part.content));
      }
      if (changes.size() > 1) row(-kInfinite, 0, changes);
    }
  }

  int column_of(const CountTerm& term) const {
    if (term.pack >= 0) return lots_[term.pack];
    if (term.join >= 0) return joins_[term.join];
    if (term.choice < 0) return bundles_[term.bundle];
    std::size_t at = 0;
    for (int p = 0; p < term.part; ++p) at += problem_.bundles[term.bundle].parts[p].choices.size();
    at += static_cast<std::size_t>(term.choice);
    return at < changed_[term.bundle].size() ? changed_[term.bundle][at] : -1;
  }

  void add_rule_terms() {
    for (const int r : view_.rules) {
      for (const CountTerm& term : problem_.cut_rules[r].any_of[0].terms) {
        if (const int col = column_of(term); col >= 0) rule_row_[r].emplace_back(col, real(term.each));
        if (term.bundle < 0 || term.choice >= 0) continue;
        CountTerm changed = term;  // a part counts in the bundles where it is not changed
        const auto choices = static_cast<int>(problem_.bundles[term.bundle].parts[term.part].choices.size());
        for (changed.choice = 0; changed.choice < choices; ++changed.choice) {
          if (const int col = column_of(changed); col >= 0) rule_row_[r].emplace_back(col, -real(term.each));
        }
      }
      const int lacking = column(0, kInfinite);
      model_.cost.emplace_back(lacking, kRuleShortage);
      rule_row_[r].emplace_back(lacking, 1.0);
    }
  }

  // Rows of needs are in parts of what is needed. What serves several needs is split among them.
  void add_needs() {
    std::vector<Terms> rows(problem_.needs.size());
    for (std::size_t product = 0; product < supply_.size(); ++product) {
      const std::vector<int>& needs = view_.needs_of[product];
      if (supply_[product].empty() || needs.empty()) continue;
      if (needs.size() == 1) {
        for (const auto& [col, content] : supply_[product]) rows[needs[0]].emplace_back(col, content / unit(needs[0]));
        continue;
      }
      Terms split;
      for (const auto& [col, content] : supply_[product]) split.emplace_back(col, -content / unit(needs[0]));
      for (const int need : needs) {
        const int given = column(0, kInfinite);
        rows[need].emplace_back(given, 1.0);
        split.emplace_back(given, unit(need) / unit(needs[0]));
      }
      row_of_split_.push_back(std::move(split));
    }
    for (std::size_t j = 0; j < joins_.size(); ++j) {
      rows[problem_.joins[j].need].emplace_back(joins_[j], -1.0 / unit(problem_.joins[j].need));
    }
    for (std::size_t n = 0; n < rows.size(); ++n) {
      const int lacking = column(0, kInfinite);
      const auto cost = shortage_.find(static_cast<int>(n));
      model_.cost.emplace_back(lacking, (cost == shortage_.end() ? 1e6 : cost->second) * unit(static_cast<int>(n)));
      rows[n].emplace_back(lacking, 1.0);
      row(real(problem_.needs[n]) / unit(static_cast<int>(n)), kInfinite, rows[n]);
    }
  }
  double unit(int need) const { return std::max(1.0, real(problem_.needs[need])); }

  void add_goods() {
    for (Terms& split : row_of_split_) row(-kInfinite, 0, std::move(split));
    for (Terms& goods : goods_row_) {
      if (!goods.empty()) row(0, 0, std::move(goods));
    }
  }

  static double value(const RelaxedAnswer& solved, int column) { return column < 0 ? 0 : solved.values[column]; }

  BulkAnswer answer(const RelaxedAnswer& solved, int first_need, int first_rule) const {
    BulkAnswer result;
    for (const int lots : lots_) result.lots.push_back(value(solved, lots));
    for (std::size_t b = 0; b < bundles_.size(); ++b) {
      result.bundles.push_back(value(solved, bundles_[b]));
      result.changed.emplace_back();
      for (const int times : changed_[b]) result.changed.back().push_back(value(solved, times));
    }
    for (const auto& of : states_) {
      double goods = 0;
      std::vector<double>& in = result.in.emplace_back();
      for (const StateColumns& columns : of) {
        in.push_back(value(solved, columns.in));
        goods += value(solved, columns.goods) * kGoodsUnit;
      }
      result.goods.push_back(goods);
    }
    for (std::size_t n = 0; n < problem_.needs.size(); ++n) {
      const double price = solved.prices[first_need + static_cast<int>(n)] / unit(static_cast<int>(n));
      result.prices.need.push_back(std::max(0.0, price));
    }
    result.prices.rule.assign(problem_.cut_rules.size(), 0);
    for (std::size_t i = 0; i < view_.rules.size(); ++i) {
      result.prices.rule[view_.rules[i]] = std::max(0.0, solved.prices[first_rule + static_cast<int>(i)]);
    }
    return result;
  }

  const BulkView& view_;
  const PurchaseProblem& problem_;
  const AllowedStates& allowed_;
  LinearModel model_;
  std::vector<Terms> supply_;  // by product
  std::vector<std::vector<StateColumns>> states_;
  std::vector<Terms> goods_row_, rule_row_, row_of_split_;
  std::vector<int> lots_, bundles_, joins_;
  std::vector<std::vector<int>> changed_;
  std::map<int, double> shortage_;  // by need
};

}  // namespace

std::optional<BulkAnswer> relax_in_bulk(const BulkView& view, const AllowedStates& allowed) {
  return Relaxing(view, allowed).run();
}

}  // namespace teetally
