#include "purchase/linear/model.h"

#include <algorithm>
#include <limits>
#include <numeric>

#include "purchase/order_terms.h"

namespace teetally {
namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr std::int64_t kMillion = 1'000'000;

double real(std::int64_t n) { return static_cast<double>(n); }

class ModelBuilder {
 public:
  ModelBuilder(const PurchaseProblem& problem, std::int64_t most_cost) : problem_(problem), most_cost_(most_cost) {}

  LinearModel build() {
    add_usable();
    goods_.resize(problem_.suppliers.size());
    supply_.resize(problem_.products.size());
    goods_limit_.assign(problem_.suppliers.size(), 0);
    filler_.resize(problem_.suppliers.size());
    for (const SupplierTerms& terms : problem_.suppliers) {
      saved_.push_back(surely_delivered(terms.brackets) == 0 ? most_saved_by_filler(terms) : kMostGoods);
    }
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) add_order(static_cast<int>(s));
    for (const PackOffer& offer : problem_.packs) add_pack(offer);
    for (const BundleOffer& offer : problem_.bundles) add_bundle(offer);
    for (std::size_t s = 0; s < problem_.suppliers.size(); ++s) add_terms(static_cast<int>(s));
    for (int count : problem_.families) add_families(count);
    add_joins();
    add_servings();
    add_limits();
    add_cut_rules(problem_, model_);
    return std::move(model_);
  }

 private:
  int column(double low, double high, bool integer, int branch_first) {
    model_.columns.push_back({low, high, integer, branch_first});
    return static_cast<int>(model_.columns.size()) - 1;
  }
  int binary(int branch_first) { return column(0, 1, true, branch_first); }
  void row(double low, double high, Terms terms) { model_.rows.push_back({low, high, std::move(terms)}); }
  void at_most(double high, Terms terms) { row(-kInfinite, high, std::move(terms)); }
  void at_least(double low, Terms terms) { row(low, kInfinite, std::move(terms)); }

  void add_usable() {
    usable_.assign(problem_.products.size(), 0);
    serves_.assign(problem_.products.size(), 0);
    for (const ServingOption& serving : problem_.servings) {
      usable_[serving.product] += most_wanted(problem_, serving.need);
      ++serves_[serving.product];
    }
  }

  void add_order(int s) {
    SupplierColumns& columns = model_.supplier_columns.emplace_back();
    const SupplierTerms& terms = problem_.suppliers[s];
    const bool plain = terms.brackets.size() == 1 && terms.brackets[0].from == 0 && terms.brackets[0].charge == 0;
    if (plain && !terms.counts) return;
    columns.order = binary(0);
    if (terms.counts) model_.suppliers.emplace_back(columns.order, 1);
  }

  // x <= most * (the order is placed)
  void link(int supplier, Terms terms, std::int64_t most) {
    const int order = model_.supplier_columns[supplier].order;
    if (order < 0) return;
    terms.emplace_back(order, -real(most));
    at_most(0, std::move(terms));
  }

  void supply(int product, int col, std::int64_t content) {
    supply_[product].emplace_back(col, content);
    count_content(product, col, content);
  }
  void count_content(int product, int col, std::int64_t content) {
    Terms& sum = problem_.products[product].by_length ? model_.tenths_mm : model_.pieces;
    sum.emplace_back(col, real(content));
  }

  void add_pack(const PackOffer& offer) {
    PackColumns& columns = model_.pack_columns.emplace_back();
    goods_limit_[offer.supplier] += price_of_lots(offer, offer.most).value_or(0) + dearer_below(offer);
    if (offer.prices.size() == 1 && offer.prices[0].from == 1 && offer.prices[0].base == 0) {
      add_plain_pack(offer, columns);
    } else {
      add_stepped_pack(offer, columns);
    }
  }

  void count_lots(const PackOffer& offer, int col) {
    model_.packs.emplace_back(col, real(offer.packs_per_lot));
    count_content(offer.product, col, offer.content);
  }

  // Lots that may serve needs and lots that only fill up an order are two columns: the first is bound tightly to
  // the order being placed, the second only by what filler can save in all.
  void add_plain_pack(const PackOffer& offer, PackColumns& columns) {
    const double each = real(offer.prices[0].each);
    const std::int64_t needed = std::min(offer.needed, offer.most);
    columns.lots = {column(0, real(needed), true, 4)};
    columns.on = {-1};
    goods_[offer.supplier].emplace_back(columns.lots[0], each);
    count_lots(offer, columns.lots[0]);
    supply_[offer.product].emplace_back(columns.lots[0], offer.content);
    if (needed > 0) link(offer.supplier, {{columns.lots[0], 1}}, needed);
    if (needed == offer.most) return;
    columns.spare = column(0, real(offer.most - needed), true, 5);
    goods_[offer.supplier].emplace_back(columns.spare, each);
    count_lots(offer, columns.spare);
    if (saved_[offer.supplier] < kMostGoods) {
      filler_[offer.supplier].emplace_back(columns.spare, each);
    } else {
      link(offer.supplier, {{columns.spare, 1}}, offer.most - needed);
    }
  }

  void add_stepped_pack(const PackOffer& offer, PackColumns& columns) {
    Terms switches;
    for (std::size_t i = 0; i < offer.prices.size(); ++i) {
      const LotPrice& step = offer.prices[i];
      const std::int64_t last = i + 1 < offer.prices.size() ? offer.prices[i + 1].from - 1 : offer.most;
      const int lots = column(0, real(last), true, 4);
      const int on = binary(3);
      columns.lots.push_back(lots);
      columns.on.push_back(on);
      goods_[offer.supplier].emplace_back(lots, real(step.each));
      if (step.base != 0) goods_[offer.supplier].emplace_back(on, real(step.base));
      count_lots(offer, lots);
      supply_[offer.product].emplace_back(lots, offer.content);
      at_most(0, {{lots, 1}, {on, -real(last)}});
      at_least(0, {{lots, 1}, {on, -real(step.from)}});
      switches.emplace_back(on, 1);
    }
    if (model_.supplier_columns[offer.supplier].order < 0) {
      at_most(1, std::move(switches));
    } else {
      link(offer.supplier, std::move(switches), 1);
    }
  }

  // Fewer lots can cost more than more lots do, just below an all-units break.
  static std::int64_t dearer_below(const PackOffer& offer) {
    std::int64_t dearest = 0;
    for (std::size_t i = 0; i + 1 < offer.prices.size(); ++i) {
      dearest = std::max(dearest, *price_of_lots(offer, offer.prices[i + 1].from - 1));
    }
    return std::max<std::int64_t>(0, dearest - *price_of_lots(offer, offer.most));
  }

  void add_bundle(const BundleOffer& offer) {
    BundleColumns& columns = model_.bundle_columns.emplace_back();
    columns.count = column(real(offer.least), real(offer.most), true, 2);
    const bool thresholds = problem_.suppliers[offer.supplier].brackets.size() > 1;
    std::int64_t dearest = offer.price;
    goods_[offer.supplier].emplace_back(columns.count, real(offer.price));
    model_.packs.emplace_back(columns.count, 1);
    link(offer.supplier, {{columns.count, 1}}, offer.most);
    for (const BundlePart& part : offer.parts) {
      supply(part.product, columns.count, part.content);
      Terms changes;
      std::int64_t most_extra = 0;
      for (const BundleChoice& choice : part.choices) {
        const bool useful = choice.product < 0 || thresholds || usable_[choice.product] > 0;
        const int changed = useful ? column(0, real(offer.most), true, 4) : -1;
        columns.changed.resize(&part - offer.parts.data() + 1);
        columns.changed.back().push_back(changed);
        if (changed < 0) continue;
        goods_[offer.supplier].emplace_back(changed, real(choice.extra));
        most_extra = std::max(most_extra, choice.extra);
        supply(part.product, changed, -part.content);
        if (choice.product >= 0) supply(choice.product, changed, part.content);
        changes.emplace_back(changed, 1);
      }
      dearest += most_extra;
      if (changes.empty()) continue;
      changes.emplace_back(columns.count, -1);
      at_most(0, std::move(changes));
    }
    columns.changed.resize(offer.parts.size());
    goods_limit_[offer.supplier] += dearest * offer.most;
  }

  // No plan as cheap as the one at hand buys goods for more than this.
  std::int64_t most_goods(int s) const {
    std::int64_t most_ppm = 0;
    for (const OrderBracket& bracket : problem_.suppliers[s].brackets) {
      most_ppm = std::max(most_ppm, bracket.discount_ppm);
    }
    if (most_ppm >= kMillion || most_cost_ > kMostGoods / kMillion / 2) return goods_limit_[s];
    return std::min(goods_limit_[s], (most_cost_ + 1) * kMillion / (kMillion - most_ppm) + 1);
  }

  void add_terms(int s) {
    const SupplierTerms& terms = problem_.suppliers[s];
    SupplierColumns& columns = model_.supplier_columns[s];
    for (const auto& term : goods_[s]) model_.cost.push_back(term);
    if (!filler_[s].empty()) link(s, filler_[s], saved_[s]);
    if (terms.brackets.empty()) {
      model_.columns[columns.order].high = 0;
      return;
    }
    const std::int64_t most = most_goods(s);
    if (terms.brackets.size() == 1) {
      one_bracket(s, terms.brackets[0]);
    } else {
      several_brackets(s, most);
    }
    add_discount(s, most);
    add_tax(s, most);
  }

  void one_bracket(int s, const OrderBracket& bracket) {
    const int order = model_.supplier_columns[s].order;
    if (order < 0) return;
    model_.cost.emplace_back(order, real(bracket.charge));
    if (bracket.from == 0) return;
    Terms terms = goods_[s];
    terms.emplace_back(order, -real(bracket.from));
    at_least(0, std::move(terms));
  }

  static bool same_discounts(const std::vector<OrderBracket>& brackets) {
    return std::all_of(brackets.begin(), brackets.end(), [&](const OrderBracket& bracket) {
      return bracket.discount_ppm == brackets.front().discount_ppm;
    });
  }
  // With falling charges nobody gains by claiming a lower bracket than the goods reach.
  static bool falling_charges(const std::vector<OrderBracket>& brackets) {
    for (std::size_t i = 1; i < brackets.size(); ++i) {
      if (brackets[i].charge > brackets[i - 1].charge || brackets[i].from != brackets[i - 1].to + 1) return false;
    }
    return true;
  }

  void several_brackets(int s, std::int64_t most) {
    const std::vector<OrderBracket>& brackets = problem_.suppliers[s].brackets;
    SupplierColumns& columns = model_.supplier_columns[s];
    Terms one, low = goods_[s], high = goods_[s], sum = goods_[s];
    const bool by_bracket = !same_discounts(brackets);
    for (const OrderBracket& bracket : brackets) {
      const int in = binary(1);
      const std::int64_t to = std::min(bracket.to, most);
      if (bracket.from > most) model_.columns[in].high = 0;
      columns.bracket.push_back(in);
      model_.cost.emplace_back(in, real(bracket.charge));
      one.emplace_back(in, 1);
      if (!by_bracket) {
        low.emplace_back(in, -real(bracket.from));
        high.emplace_back(in, -real(to));
        continue;
      }
      const int goods = column(0, real(std::max<std::int64_t>(0, to)), false, 9);
      columns.goods.push_back(goods);
      sum.emplace_back(goods, -1);
      at_most(0, {{goods, 1}, {in, -real(std::max<std::int64_t>(0, to))}});
      at_least(0, {{goods, 1}, {in, -real(bracket.from)}});
    }
    one.emplace_back(columns.order, -1);
    row(0, 0, std::move(one));
    if (by_bracket) {
      row(0, 0, std::move(sum));
    } else {
      at_least(0, std::move(low));
      if (!falling_charges(brackets)) at_most(0, std::move(high));
    }
  }

  // d = (p g + 1/2) rounded down. With p = a / q in lowest terms this is 2 q d <= 2 a g + q for the greatest
  // integer d, and a greater d only makes the order cheaper. Both sides are integers at integer points, so half
  // a unit of slack keeps rounding noise away and changes nothing.
  void add_discount(int s, std::int64_t most) {
    const std::vector<OrderBracket>& brackets = problem_.suppliers[s].brackets;
    std::int64_t common = kMillion, most_ppm = 0;
    for (const OrderBracket& bracket : brackets) {
      common = std::gcd(common, bracket.discount_ppm);
      most_ppm = std::max(most_ppm, bracket.discount_ppm);
    }
    if (most_ppm == 0) return;
    SupplierColumns& columns = model_.supplier_columns[s];
    const double q = real(kMillion / common);
    columns.discount = column(0, real(rounded_share(most_ppm, most)), true, 8);
    model_.cost.emplace_back(columns.discount, -1);
    Terms terms{{columns.discount, 1}};
    if (columns.goods.empty()) {
      for (const auto& [col, each] : goods_[s]) terms.emplace_back(col, -each * real(most_ppm / common) / q);
    } else {
      for (std::size_t b = 0; b < brackets.size(); ++b) {
        terms.emplace_back(columns.goods[b], -real(brackets[b].discount_ppm / common) / q);
      }
    }
    at_most((q + 0.5) / (2 * q), std::move(terms));
  }

  // t = (p v + 1/2) rounded down is the least integer with 2 q t >= 2 a v - q + 1; half a unit of slack as above.
  void add_tax(int s, std::int64_t most) {
    const SupplierTerms& supplier = problem_.suppliers[s];
    if (supplier.tax_ppm == 0) return;
    SupplierColumns& columns = model_.supplier_columns[s];
    const std::int64_t common = std::gcd(kMillion, supplier.tax_ppm);
    const double q = real(kMillion / common);
    const double rate = real(supplier.tax_ppm / common) / q;
    std::int64_t most_charge = 0;
    for (const OrderBracket& bracket : supplier.brackets) most_charge = std::max(most_charge, bracket.charge);
    columns.tax = column(0, real(rounded_share(supplier.tax_ppm, most + most_charge)), true, 8);
    model_.cost.emplace_back(columns.tax, 1);
    Terms terms{{columns.tax, 1}};
    for (const auto& [col, each] : goods_[s]) terms.emplace_back(col, -rate * each);
    if (columns.discount >= 0) terms.emplace_back(columns.discount, rate);
    if (supplier.tax_on_charge) {
      for (std::size_t b = 0; b < supplier.brackets.size(); ++b) {
        const int in = columns.bracket.empty() ? columns.order : columns.bracket[b];
        if (in >= 0 && supplier.brackets[b].charge > 0)
          terms.emplace_back(in, -rate * real(supplier.brackets[b].charge));
      }
    }
    at_least((0.5 - q) / (2 * q), std::move(terms));
  }

  void add_families(int count) {
    std::vector<int>& columns = model_.family_columns.emplace_back();
    if (count < 2) return;
    Terms one;
    for (int f = 0; f < count; ++f) {
      columns.push_back(binary(0));
      one.emplace_back(columns.back(), 1);
    }
    row(1, 1, std::move(one));
  }

  // Whether the serving depends on the choice of a family.
  bool conditional(const ServingOption& serving) const {
    return std::any_of(serving.conditions.begin(), serving.conditions.end(), [&](const FamilyCondition& condition) {
      return std::count(condition.allowed.begin(), condition.allowed.end(), false) > 0;
    });
  }

  void add_servings() {
    std::vector<Terms> covered(problem_.needs.size()), used(problem_.products.size());
    for (const ServingOption& serving : problem_.servings) {
      const std::int64_t need = most_wanted(problem_, serving.need);
      model_.serving_columns.push_back(-1);
      if (need == 0) continue;
      if (serves_[serving.product] == 1 && !conditional(serving)) {
        // A pack with more than the whole need counts as the need: same integer points, stronger relaxation.
        for (const auto& [col, content] : supply_[serving.product]) {
          covered[serving.need].emplace_back(col, real(std::clamp(content, -need, need)));
        }
        continue;
      }
      const int share = column(0, 1, false, 9);
      model_.serving_columns.back() = share;
      covered[serving.need].emplace_back(share, real(need));
      used[serving.product].emplace_back(share, real(need));
      for (const FamilyCondition& condition : serving.conditions) add_condition(share, condition);
    }
    for (std::size_t j = 0; j < model_.join_columns.size(); ++j) {
      covered[problem_.joins[j].need].emplace_back(model_.join_columns[j], -1);
    }
    for (std::size_t need = 0; need < covered.size(); ++need) {
      if (most_wanted(problem_, static_cast<int>(need)) == 0) continue;
      at_least(real(problem_.needs[need]), std::move(covered[need]));
    }
    for (std::size_t product = 0; product < used.size(); ++product) {
      if (used[product].empty()) continue;
      const std::int64_t usable = usable_[product];
      for (const auto& [col, content] : supply_[product]) {
        used[product].emplace_back(col, -real(std::clamp(content, -usable, usable)));
      }
      at_most(0, std::move(used[product]));
    }
  }

  void add_condition(int share, const FamilyCondition& condition) {
    const std::vector<int>& families = model_.family_columns[condition.system];
    if (families.empty()) {
      if (!condition.allowed[0]) model_.columns[share].high = 0;
      return;
    }
    Terms terms{{share, 1}};
    for (std::size_t f = 0; f < families.size(); ++f) {
      if (condition.allowed[f]) terms.emplace_back(families[f], -1);
    }
    if (terms.size() <= families.size()) at_most(0, std::move(terms));
  }

  // Without rules about cutting nothing ever asks for a join.
  void add_joins() {
    if (problem_.cut_rules.empty()) return;
    for (const JoinOffer& join : problem_.joins) {
      model_.join_columns.push_back(column(0, real(join.most), true, 3));
    }
  }

  void add_limits() {
    if (problem_.most_suppliers) at_most(*problem_.most_suppliers, model_.suppliers);
    if (!problem_.bundle_wanted) return;
    Terms wanted;
    for (int b : problem_.wanted_bundles) wanted.emplace_back(model_.bundle_columns[b].count, 1);
    at_least(1, std::move(wanted));
  }

  const PurchaseProblem& problem_;
  std::int64_t most_cost_;
  LinearModel model_;
  std::vector<std::int64_t> usable_, goods_limit_, saved_;
  std::vector<int> serves_;
  std::vector<Terms> goods_, filler_;                              // by supplier
  std::vector<std::vector<std::pair<int, std::int64_t>>> supply_;  // by product
};

}  // namespace

LinearModel linear_model(const PurchaseProblem& problem, std::int64_t most_cost) {
  return ModelBuilder(problem, most_cost).build();
}

}  // namespace teetally
