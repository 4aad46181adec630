#include "purchase/exact/wide.h"

#include <algorithm>
#include <cmath>

#include "teetally/base/simplex.h"

namespace teetally {
namespace {

constexpr double kFirstStep = 4;  // bundles away from what the linear program takes
constexpr int kSteps = 3;
constexpr double kMostSplitWork = 2e8;  // cells of linear programs

// A supplier at its cheapest: the least rate of its states, and what being used costs at least.
struct Cheapest {
  double rate = kNever, fixed = 0;
};

Cheapest cheapest(const std::vector<SupplierState>& states, bool surely_used) {
  Cheapest result;
  if (surely_used) result.fixed = kNever;
  for (const SupplierState& state : states) {
    if (!state.used) continue;
    result.rate = std::min(result.rate, state.rate);
    result.fixed = std::min(result.fixed, state.fixed);
  }
  if (result.rate >= kNever) result.rate = 0;
  if (result.fixed >= kNever) result.fixed = 0;
  return result;
}

// Any plan costs at least `base`, and for each bundle of a column what is `left` of its price.
struct Line {
  double base = 0;
  Table left;
};

class Wide {
 public:
  // `used`: suppliers that are known to be used; `without`: one that is not, or -1.
  Wide(const ExactModel& model, const std::vector<bool>& used, int without = -1) : model_(model), without_(without) {
    for (std::size_t s = 0; s < model.suppliers.size(); ++s) at_.push_back(cheapest(model.suppliers[s], used[s]));
    for (const BundleColumn& column : model.columns) {
      std::int64_t credit = column.useless_credit;
      for (const auto& [g, t] : column.groups) {
        for (const ColumnPart& part : model.groups[g].columns[t].parts) credit += part.credit;
      }
      // Never negative: a catalog's credits are at most the price, and swaps only add to it.
      price_.push_back(model_.measure.goods(column.price - credit, at_[column.supplier].rate));
      credits_ += credit;
    }
    for (std::size_t g = 0; g < model.groups.size(); ++g) unit_price_.push_back(unit_price(g));
  }

  WideLook look() {
    WideLook result;
    const LinearAnswer answer = split(-1, 0);
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
    result.bound = fixed();
    for (std::size_t g = 0; g < model_.groups.size(); ++g) result.bound += least_of(g);
    for (std::size_t c = 0; c < model_.columns.size(); ++c) {
      result.counts.push_back(static_cast<int>(
          std::min<double>(std::floor(answer.prices[c] + 1e-6), static_cast<double>(model_.columns[c].most))));
    }
    return result;
  }

  // Least cost by the linear program, in whole steps.
  double linear_bound() const { return line(split(-1, 0).x, -1).base; }

  WideTask task(double reach) const {
    WideTask task;
    task.model = wide_model();
    task.all_plain = credits_ == 0 && task.model.groups.size() == model_.groups.size();
    const LinearAnswer answer = split(-1, 0);
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      if (plain(g)) task.unit_worth.push_back(answer.x[g]);
    }
    const Line middle = line(answer.x, -1);
    std::vector<std::array<std::int64_t, 2>> range;
    for (std::size_t c = 0; c < price_.size(); ++c) {
      range.push_back({0, model_.columns[c].most});
      narrow(middle, static_cast<int>(c), reach, range.back());
    }
    double work = kMostSplitWork;
    for (const bool taken : {true, false}) {
      for (std::size_t c = 0; c < price_.size() && work > 0; ++c) {
        if ((answer.prices[c] > 0) != taken) continue;
        work -= narrow_beside(static_cast<int>(c), answer.prices[c], true, reach, range[c]);
        work -= narrow_beside(static_cast<int>(c), answer.prices[c], false, reach, range[c]);
      }
    }
    task.ranges.resize(price_.size());
    const auto gone = [](const auto& r) { return r[0] > r[1]; };
    if (middle.base > reach || std::any_of(range.begin(), range.end(), gone)) return task;
    for (std::size_t c = 0; c < range.size(); ++c) {
      for (std::int64_t n = range[c][0]; n <= range[c][1]; ++n) task.ranges[c].push_back(static_cast<int>(n));
    }
    return task;
  }

 private:
  bool plain(std::size_t g) const { return model_.groups[g].demand.size() == 1; }

  double fixed() const {
    double sum = 0;
    for (const Cheapest& at : at_) sum += at.fixed;
    return sum;
  }

  double units(std::size_t g, std::size_t t) const {
    double sum = 0;
    for (const ColumnPart& part : model_.groups[g].columns[t].parts) sum += static_cast<double>(part.brings.units);
    return sum;
  }

  // What a unit costs loose at best; what only bundles bring is worth any price.
  double unit_price(std::size_t g) const {
    double least = kNever;
    const auto weigh = [&](std::int64_t goods, double rate, double units) {
      least = std::min(least, model_.measure.goods(goods, rate) / units * (1 - 0x1p-50));
    };
    for (std::size_t s = 0; s < model_.suppliers.size(); ++s) {
      if (static_cast<int>(s) == without_) continue;
      for (const GroupOffer& offer : model_.groups[g].offers[s]) {
        const auto units = static_cast<double>(offer.brings.units);
        for (const PriceRun& run : offer.runs) {
          weigh(run.each, at_[s].rate, units);
          weigh(run.start, at_[s].rate, units * static_cast<double>(run.first));
        }
        for (std::size_t n = 0; n < offer.costs.size(); ++n) {
          if (offer.costs[n] >= 0) weigh(offer.costs[n], at_[s].rate, units * static_cast<double>(n + 1));
        }
      }
    }
    return std::min(least, model_.measure.minor * 1e9);
  }

  // Prices for a unit of each group that no bundle undercuts, worth most for what is needed. Where a column is given,
  // it is taken so many times, and its price may be undercut.
  LinearAnswer split(int column, double count) const {
    LinearProgram program;
    program.rows.resize(model_.columns.size());
    for (std::size_t c = 0; c < model_.columns.size(); ++c) program.rows[c].most = price_[c];
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      program.gains.push_back(plain(g) ? static_cast<double>(model_.groups[g].demand.front()) : 0);
      if (!plain(g)) continue;
      const int variable = static_cast<int>(g);
      for (std::size_t t = 0; t < model_.groups[g].columns.size(); ++t) {
        const int c = model_.groups[g].columns[t].column;
        if (c == column) {
          program.gains.back() -= count * units(g, t);
        } else if (model_.columns[c].supplier != without_) {
          program.rows[c].terms.emplace_back(variable, units(g, t));
        }
      }
      program.rows.push_back({{{variable, 1.0}}, unit_price_[g]});
    }
    return maximise(program);
  }

  // The bound that unit prices give, in whole steps. No column but the open one may cost less than its parts are worth:
  // where the prices say so, they are lowered.
  Line line(std::vector<double> prices, int open) const {
    Line result;
    result.base = fixed();
    result.left = price_;
    for (std::size_t g = 0; g < prices.size(); ++g) {
      prices[g] = plain(g) ? std::floor(std::clamp(prices[g], 0.0, unit_price_[g])) : 0;
      result.base += add(g, prices[g], result.left);
    }
    for (std::size_t c = 0; c < price_.size(); ++c) {
      if (static_cast<int>(c) == open || model_.columns[c].supplier == without_) continue;
      for (const auto& [g, t] : model_.columns[c].groups) {
        if (result.left[c] >= 0) break;
        const double less = std::min(prices[g], std::ceil(-result.left[c] / units(g, t)));
        prices[g] -= less;
        result.base += add(g, -less, result.left);
      }
    }
    return result;
  }

  // Raises the price of a group's units; answers how much the bound gains.
  double add(std::size_t g, double price, Table& left) const {
    for (std::size_t t = 0; t < model_.groups[g].columns.size(); ++t) {
      left[model_.groups[g].columns[t].column] -= price * units(g, t);
    }
    return price * static_cast<double>(model_.groups[g].demand.front());
  }

  static void narrow(const Line& line, int column, double reach, std::array<std::int64_t, 2>& range) {
    const auto left = static_cast<std::int64_t>(line.left[column]), room = static_cast<std::int64_t>(reach - line.base);
    if (left > 0) range[1] = std::min(range[1], room < 0 ? -1 : room / left);
    if (left < 0 && room < 0) range[0] = std::max(range[0], (room + left + 1) / left);
  }

  // The best split for a range is the one that takes as many bundles as its end. Answers what that took.
  double narrow_beside(int column, double count, bool above, double reach, std::array<std::int64_t, 2>& range) const {
    double work = 0, at = above ? count + kFirstStep : count - kFirstStep;
    for (int i = 0; i < kSteps && at > 0; ++i) {
      narrow(line(split(column, at).x, column), column, reach, range);
      work += static_cast<double>((price_.size() + unit_price_.size()) * unit_price_.size());
      const auto end = static_cast<double>(range[above ? 1 : 0]) + (above ? 1 : -1);
      if (std::abs(end - at) < 2) break;
      at = end;
    }
    return work;
  }

  WideModel wide_model() const {
    WideModel wide;
    wide.price = price_;
    wide.fixed = fixed();
    wide.sits.resize(price_.size());
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      if (!plain(g)) continue;
      const int group = static_cast<int>(wide.groups.size());
      WideGroup& to = wide.groups.emplace_back();
      to.full = model_.groups[g].demand.front();
      to.end = loose(g);
      for (std::size_t t = 0; t < model_.groups[g].columns.size(); ++t) {
        const int c = model_.groups[g].columns[t].column;
        to.columns.push_back({c, static_cast<std::int64_t>(units(g, t)), static_cast<int>(wide.sits[c].size())});
        wide.sits[c].push_back({group, static_cast<int>(t)});
      }
    }
    return wide;
  }

  // By units that are covered: the least cost of the rest, bought loose.
  Table loose(std::size_t g) const {
    const GroupChain chain(model_, static_cast<int>(g));
    Table table(chain.full() + 1, kNever), after;
    table.back() = 0;
    for (int s : chain.present()) {
      chain.buy_backward(s, at_[s].rate, table, after, 0);
      table.swap(after);
    }
    return table;
  }

  // The group alone, bundles at their shares: the least cost of covering it.
  double least_of(std::size_t g) const {
    if (!plain(g)) return 0;
    Table table = loose(g);
    for (std::size_t t = 0; t < shares_[g].size(); ++t) {
      const auto step = static_cast<std::size_t>(units(g, t));
      for (std::size_t n = step > 0 ? table.size() - 1 : 0; n-- > 0;) {
        table[n] = std::min(table[n], table[std::min(table.size() - 1, n + step)] + shares_[g][t]);
      }
    }
    return table.front() >= kNever ? 0 : table.front();
  }

  const ExactModel& model_;
  int without_;
  std::int64_t credits_ = 0;
  std::vector<Cheapest> at_;   // by supplier
  Table price_;                // by column, every credit taken
  Table unit_price_;           // by group
  std::vector<Table> shares_;  // by group, by its columns
};

}  // namespace

WideLook look_wide(const ExactModel& model) {
  return Wide(model, std::vector<bool>(model.suppliers.size(), false)).look();
}

WideTask wide_task(const ExactModel& model, double reach) {
  const std::vector<bool> nobody(model.suppliers.size(), false);
  std::vector<bool> used = nobody;
  for (std::size_t s = 0; s < used.size(); ++s) {
    if (cheapest(model.suppliers[s], true).fixed <= 0) continue;
    used[s] = Wide(model, nobody, static_cast<int>(s)).linear_bound() > reach;
  }
  return Wide(model, used).task(reach);
}

double work_of_sweep(const WideTask& task) {
  double work = 0;
  for (const WideGroup& group : task.model.groups) {
    double reached = 0;
    for (const WideGroup::Column& column : group.columns) {
      const std::vector<int>& range = task.ranges[column.column];
      if (range.empty()) return 0;
      work += static_cast<double>(range.size()) * (1 + std::min(reached, static_cast<double>(group.full)));
      reached += static_cast<double>(column.units) * (range.back() - range.front());
    }
  }
  return work;
}

double work_of_sweep(const ExactModel& model, const std::vector<std::int64_t>& most) {
  double work = 0;
  for (const NeedGroup& group : model.groups) {
    double values = 0;
    for (const GroupColumn& column : group.columns) {
      const auto counts = static_cast<double>(most[column.column] + 1);
      // A part that may be left out is tried with every share of the bundles.
      for (const ColumnPart& part : column.parts) values += part.may_go() ? counts * (counts + 1) / 2 : counts;
    }
    for (const auto& offers : group.offers) values += 4 * static_cast<double>(offers.size());
    work += values * static_cast<double>(group.states);
  }
  return work;
}

}  // namespace teetally
