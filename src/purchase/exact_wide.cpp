#include "purchase/exact_wide.h"

#include <algorithm>
#include <cmath>

#include "teetally/base/simplex.h"

namespace teetally {
namespace {

// A supplier at its cheapest: the least rate of its states, and what being used costs at least.
struct Cheapest {
  double rate = kNever, fixed = 0;
};

Cheapest cheapest(const std::vector<SupplierState>& states) {
  Cheapest result;
  for (const SupplierState& state : states) {
    if (!state.used) continue;
    result.rate = std::min(result.rate, state.rate);
    result.fixed = std::min(result.fixed, state.fixed);
  }
  if (result.rate >= kNever) result.rate = 0;
  return result;
}

class Wide {
 public:
  explicit Wide(const ExactModel& model) : model_(model) {
    for (const auto& states : model.suppliers) at_.push_back(cheapest(states));
    for (const BundleColumn& column : model.columns) {
      std::int64_t credit = column.useless_credit;
      for (const auto& [g, t] : column.groups) {
        for (const ColumnPart& part : model.groups[g].columns[t].parts) credit += part.credit;
      }
      // Never negative: a catalog's credits are at most the price, and swaps only add to it.
      price_.push_back(model_.measure.goods(column.price - credit, at_[column.supplier].rate));
    }
  }

  WideLook look() {
    WideLook result;
    const LinearAnswer answer = split();
    result.left = price_;
    shares_.resize(model_.groups.size());
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      shares_[g].assign(model_.groups[g].columns.size(), 0);
      if (!plain(g)) continue;
      for (std::size_t t = 0; t < shares_[g].size(); ++t) {
        double& left = result.left[model_.groups[g].columns[t].column];
        shares_[g][t] = std::min(left, std::floor(answer.x[g] * units(g, t)));
        left -= shares_[g][t];
      }
    }
    for (const Cheapest& at : at_) result.bound += at.fixed;
    for (std::size_t g = 0; g < model_.groups.size(); ++g) result.bound += least_of(g);
    for (std::size_t c = 0; c < model_.columns.size(); ++c) {
      result.counts.push_back(static_cast<int>(
          std::min<double>(std::floor(answer.prices[c] + 1e-6), static_cast<double>(model_.columns[c].most))));
    }
    return result;
  }

 private:
  bool plain(std::size_t g) const { return model_.groups[g].demand.size() == 1; }

  double units(std::size_t g, std::size_t t) const {
    double sum = 0;
    for (const ColumnPart& part : model_.groups[g].columns[t].parts) sum += static_cast<double>(part.brings.units);
    return sum;
  }

  // What a unit costs loose at best; what only bundles bring is worth any price.
  double unit_price(std::size_t g) const {
    double least = kNever;
    for (std::size_t s = 0; s < model_.suppliers.size(); ++s) {
      for (const GroupOffer& offer : model_.groups[g].offers[s]) {
        const auto units = static_cast<double>(offer.brings.units);
        for (const PriceRun& run : offer.runs) {
          least = std::min(least, model_.measure.goods(run.each, at_[s].rate) / units);
          least =
              std::min(least, model_.measure.goods(run.start, at_[s].rate) / (units * static_cast<double>(run.first)));
        }
        for (std::size_t n = 0; n < offer.costs.size(); ++n) {
          if (offer.costs[n] < 0) continue;
          least =
              std::min(least, model_.measure.goods(offer.costs[n], at_[s].rate) / (units * static_cast<double>(n + 1)));
        }
      }
    }
    return least;
  }

  // Prices for a unit of each group that no bundle undercuts, worth most for what is needed.
  LinearAnswer split() const {
    LinearProgram program;
    program.rows.resize(model_.columns.size());
    for (std::size_t c = 0; c < model_.columns.size(); ++c) program.rows[c].most = price_[c];
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      program.gains.push_back(plain(g) ? static_cast<double>(model_.groups[g].demand.front()) : 0);
      if (!plain(g)) continue;
      const int variable = static_cast<int>(g);
      for (std::size_t t = 0; t < model_.groups[g].columns.size(); ++t) {
        program.rows[model_.groups[g].columns[t].column].terms.emplace_back(variable, units(g, t));
      }
      program.rows.push_back({{{variable, 1.0}}, std::min(unit_price(g), model_.measure.minor * 1e9)});
    }
    return maximise(program);
  }

  // The group alone, bundles at their shares: the least cost of covering it.
  double least_of(std::size_t g) const {
    if (!plain(g)) return 0;
    const GroupChain chain(model_, static_cast<int>(g));
    Table table(chain.full() + 1, kNever), after;
    table.back() = 0;
    for (int s : chain.present()) {
      chain.buy_backward(s, at_[s].rate, table, after, 0);
      table.swap(after);
    }
    for (std::size_t t = 0; t < shares_[g].size(); ++t) {
      const auto step = static_cast<std::size_t>(units(g, t));
      for (std::size_t n = step > 0 ? table.size() - 1 : 0; n-- > 0;) {
        table[n] = std::min(table[n], table[std::min(table.size() - 1, n + step)] + shares_[g][t]);
      }
    }
    return table.front() >= kNever ? 0 : table.front();
  }

  const ExactModel& model_;
  std::vector<Cheapest> at_;   // by supplier
  Table price_;                // by column, every credit taken
  std::vector<Table> shares_;  // by group, by its columns
};

}  // namespace

WideLook look_wide(const ExactModel& model) { return Wide(model).look(); }

double work_of_sweep(const ExactModel& model, const std::vector<std::int64_t>& most) {
  double work = 0;
  for (const NeedGroup& group : model.groups) {
    double values = 0;
    for (const GroupColumn& column : group.columns) values += static_cast<double>(most[column.column] + 1);
    for (const auto& offers : group.offers) values += 4 * static_cast<double>(offers.size());
    work += values * static_cast<double>(group.states);
  }
  return work;
}

}  // namespace teetally
