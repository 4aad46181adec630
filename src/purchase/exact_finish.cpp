#include "purchase/exact_finish.h"

#include <algorithm>
#include <cmath>

#include "purchase/exact_ways.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostPicks = 400'000;
constexpr double kFirstWindow = 16, kWidestWindow = 1e12;  // minor units
constexpr double kDust = 1e-6;  // minor units: far above what doubles lose here, far below one minor unit

// Picks one way of every part so that all thresholds are met, by depth-first search with a Lagrangian bound: a
// price on goods at each watched supplier rewards ways that bring it nearer to its threshold.
class Picker {
 public:
  Picker(const Settled& settled, const std::vector<Part>& parts, std::int64_t best)
      : settled_(settled), parts_(parts), best_(best), start_(settled_start(settled)) {
    for (int s : settled.watched) need_.push_back(static_cast<double>(settled.states[s].from));
  }

  // False when the search was cut short.
  bool run() {
    Open open(parts_.size());
    for (std::size_t k = 0; k < parts_.size(); ++k) {
      if (parts_[k].ways.empty()) return true;
      for (std::size_t i = 0; i < parts_[k].ways.size(); ++i) open[k].push_back(static_cast<int>(i));
    }
    Prices prices{};
    search(open, prices, 40);
    return picks_ <= kMostPicks;
  }

  std::int64_t best() const { return best_; }
  const std::vector<int>& picked() const { return picked_; }
  bool found() const { return !picked_.empty(); }

 private:
  using Open = std::vector<std::vector<int>>;  // by part: ways still open
  using Prices = std::array<double, kMostWatched>;

  double reach() const { return static_cast<double>(best_ - 1) + kDust; }

  double value_of(const Way& way, const Prices& prices) const {
    double value = way.linear;
    for (std::size_t z = 0; z < need_.size(); ++z) value -= prices[z] * static_cast<double>(way.goods[z]);
    return value;
  }

  struct Look {
    double bound = 0;
    std::vector<int> liked;     // by part: position in the open list
    std::vector<double> least;  // by part
    Prices short_of{};          // by slot: goods missing to the threshold
  };

  Look look(const Open& open, const Prices& prices) const {
    Look result;
    result.bound = value_of(start_, prices);
    for (std::size_t z = 0; z < need_.size(); ++z) {
      result.bound += prices[z] * need_[z];
      result.short_of[z] = need_[z] - static_cast<double>(start_.goods[z]);
    }
    for (std::size_t k = 0; k < open.size(); ++k) {
      int liked = 0;
      double least = value_of(parts_[k].ways[open[k][0]], prices);
      for (std::size_t i = 1; i < open[k].size(); ++i) {
        const double value = value_of(parts_[k].ways[open[k][i]], prices);
        if (value < least) least = value, liked = static_cast<int>(i);
      }
      result.bound += least;
      result.liked.push_back(liked);
      result.least.push_back(least);
      const Way& way = parts_[k].ways[open[k][liked]];
      for (std::size_t z = 0; z < need_.size(); ++z) result.short_of[z] -= static_cast<double>(way.goods[z]);
    }
    return result;
  }

  void consider(const Open& open, const Look& seen) {
    std::int64_t cost = start_.other;
    WatchedGoods goods = start_.goods;
    for (std::size_t k = 0; k < open.size(); ++k) {
      const Way& way = parts_[k].ways[open[k][seen.liked[k]]];
      cost += way.other;
      for (std::size_t z = 0; z < need_.size(); ++z) goods[z] += way.goods[z];
    }
    for (std::size_t z = 0; z < need_.size() && cost < best_; ++z) {
      const auto order = cost_of_order(settled_.model->problem->suppliers[settled_.watched[z]], goods[z]);
      cost = order ? cost + *order : kMostGoods;
    }
    if (cost >= best_) return;
    best_ = cost;
    picked_.clear();
    for (std::size_t k = 0; k < open.size(); ++k) picked_.push_back(open[k][seen.liked[k]]);
  }

  // Moves the prices so that the bound rises (Polyak's step); answers the best look seen.
  Look raise(const Open& open, Prices& prices, int rounds) {
    Look best = look(open, prices);
    Prices best_prices = prices;
    consider(open, best);
    Look now = best;
    double boldness = 1;
    for (int i = 0; i < rounds && best.bound <= reach(); ++i) {
      double length = 0;
      for (std::size_t z = 0; z < need_.size(); ++z) {
        const double slope = prices[z] <= 0 ? std::max(0.0, now.short_of[z]) : now.short_of[z];
        length += slope * slope;
      }
      if (length == 0) break;
      const double gap = std::max(1.0, std::min(reach(), best.bound * 1.05 + 100) - now.bound);
      for (std::size_t z = 0; z < need_.size(); ++z) {
        prices[z] = std::max(0.0, prices[z] + boldness * gap / length * now.short_of[z]);
      }
      now = look(open, prices);
      consider(open, now);
      if (now.bound > best.bound) {
        best = now;
        best_prices = prices;
      } else {
        boldness *= 0.7;
      }
    }
    prices = best_prices;
    return best;
  }

  void search(Open& open, Prices prices, int rounds) {
    if (++picks_ > kMostPicks) return;
    Look seen = raise(open, prices, rounds);
    if (seen.bound - settled_.rounding > reach()) return;
    // Ways that cannot be part of anything cheaper.
    for (std::size_t k = 0; k < open.size(); ++k) {
      const double room = reach() + settled_.rounding - seen.bound + seen.least[k];
      std::erase_if(open[k], [&](int i) { return value_of(parts_[k].ways[i], prices) > room; });
      if (open[k].empty()) return;
    }
    const int part = widest(open);
    if (part < 0) {
      consider(open, look(open, prices));
      return;
    }
    std::vector<int> ways = open[part];
    std::sort(ways.begin(), ways.end(), [&](int a, int b) {
      const double va = value_of(parts_[part].ways[a], prices), vb = value_of(parts_[part].ways[b], prices);
      return va != vb ? va < vb : a < b;
    });
    for (int way : ways) {
      const double bound = seen.bound - seen.least[part] + value_of(parts_[part].ways[way], prices);
      if (bound - settled_.rounding > reach()) return;
      Open child = open;
      child[part] = {way};
      search(child, prices, 10);
      if (picks_ > kMostPicks) return;
    }
  }

  // The part whose open ways differ most in what they spend at watched suppliers.
  int widest(const Open& open) const {
    int widest = -1;
    double most = -1;
    for (std::size_t k = 0; k < open.size(); ++k) {
      if (open[k].size() < 2) continue;
      double spread = 0;
      for (std::size_t z = 0; z < need_.size(); ++z) {
        std::int64_t low = kMostGoods, high = 0;
        for (int i : open[k]) {
          low = std::min(low, parts_[k].ways[i].goods[z]);
          high = std::max(high, parts_[k].ways[i].goods[z]);
        }
        spread += static_cast<double>(high - low);
      }
      if (spread > most) most = spread, widest = static_cast<int>(k);
    }
    return widest;
  }

  const Settled& settled_;
  const std::vector<Part>& parts_;
  std::int64_t best_;
  Way start_;
  std::vector<double> need_;
  std::vector<int> picked_;
  std::int64_t picks_ = 0;
};

Settled settle(const ExactModel& model, const std::vector<int>& values, const Table& pressure,
               const std::vector<bool>& watched) {
  Settled settled;
  settled.model = &model;
  const auto columns = static_cast<std::ptrdiff_t>(model.columns.size());
  settled.counts.assign(values.begin(), values.begin() + columns);
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    const SupplierState& state = model.suppliers[s][values[columns + s]];
    settled.states.push_back(state);
    settled.pressure.push_back(state.used && state.from > 0 && watched[s] ? pressure[s] : 0);
    settled.slot.push_back(-1);
    if (!state.used || !watched[s]) continue;
    settled.slot.back() = static_cast<int>(settled.watched.size());
    settled.watched.push_back(static_cast<int>(s));
    settled.rounding += 2 * state.slack / kScale;
  }
  return settled;
}

// The settled bound at the bound's prices, scaled.
double bound_of(const Settled& settled, const std::vector<Part>& parts) {
  double bound = 0;
  const auto value = [&](const Way& way) {
    double v = way.linear;
    for (std::size_t z = 0; z < settled.watched.size(); ++z) {
      v -= settled.pressure[settled.watched[z]] * static_cast<double>(way.goods[z]);
    }
    return v;
  };
  bound += value(settled_start(settled));
  for (int s : settled.watched) bound += settled.pressure[s] * static_cast<double>(settled.states[s].from);
  for (const Part& part : parts) {
    double least = kNever;
    for (const Way& way : part.ways) least = std::min(least, value(way));
    bound += least;
  }
  return bound;
}

// Columns of one bundle share its limit, and a bundle that is asked for must be there.
bool keeps_bundle_limits(const ExactModel& model, const std::vector<int>& values) {
  const PurchaseProblem& problem = *model.problem;
  std::vector<std::int64_t> counts(problem.bundles.size(), 0);
  for (std::size_t c = 0; c < model.columns.size(); ++c) counts[model.columns[c].bundle] += values[c];
  for (std::size_t b = 0; b < counts.size(); ++b) {
    if (counts[b] > problem.bundles[b].most) return false;
  }
  const auto& wanted = problem.wanted_bundles;
  return !problem.bundle_wanted || std::any_of(wanted.begin(), wanted.end(), [&](int b) { return counts[b] > 0; });
}

Plan plan_of(const Settled& settled, const std::vector<Part>& parts, const std::vector<int>& picked) {
  const ExactModel& model = *settled.model;
  Plan plan = empty_plan(*model.problem);
  plan.family = model.family;
  for (std::size_t c = 0; c < settled.counts.size(); ++c) {
    const BundleColumn& column = model.columns[c];
    BundleCount& line = plan.bundles[column.bundle];
    line.count += settled.counts[c];
    for (std::size_t p = 0; p < column.choice.size(); ++p) {
      if (column.choice[p] >= 0) line.changed[p][column.choice[p]] += settled.counts[c];
    }
  }
  for (std::size_t k = 0; k < parts.size(); ++k) {
    for (const Decision& decision : parts[k].ways[picked[k]].decisions) add_to(settled, decision, plan);
  }
  return plan;
}

// Suppliers that are not watched, but whose goods lie outside what their state allows.
void find_misjudged(const Settled& settled, const Plan& plan, std::vector<int>& misjudged) {
  const std::vector<std::int64_t> goods = goods_of(*settled.model->problem, plan);
  for (std::size_t s = 0; s < goods.size(); ++s) {
    const SupplierState& state = settled.states[s];
    if (!state.used || settled.slot[s] >= 0) continue;
    if (goods[s] < state.from || goods[s] > state.to) misjudged.push_back(static_cast<int>(s));
  }
}

// One pass with a set of watched suppliers. The window grows from little to all that could beat the best plan, so
// that a good plan is known before many ways are listed. `misjudged` gets suppliers that turn out to need watching.
Finished pass(const Settled& settled, std::int64_t best, std::vector<int>& misjudged) {
  Finished result;
  result.complete = false;
  const std::optional<std::vector<Part>> narrow = list_ways(settled, kScale);
  if (!narrow) return result;
  const double bound = bound_of(settled, *narrow);
  const auto needed = [&] {
    return best < kMostGoods ? static_cast<double>(best) - bound + 1 + settled.rounding : kNever;
  };
  for (double width = kFirstWindow; width < kWidestWindow && needed() >= 0; width *= 4) {
    const double window = std::min(width, needed());
    const std::optional<std::vector<Part>> parts = list_ways(settled, (window + 1) * kScale);
    if (!parts) return result;
    Picker picker(settled, *parts, best);
    const bool finished = picker.run();
    if (picker.found()) {
      const Plan plan = plan_of(settled, *parts, picker.picked());
      const std::optional<Rank> ranked = rank(*settled.model->problem, plan);
      if (ranked && ranked->cost < best) {
        result.plan = plan;
        best = result.cost = ranked->cost;
      }
      if (!ranked || ranked->cost > picker.best()) {
        find_misjudged(settled, plan, misjudged);
        return result;
      }
    }
    if (!finished) return result;
    const bool all = std::all_of(parts->begin(), parts->end(), [](const Part& part) { return part.all; });
    result.complete = all || window >= needed();
    if (result.complete) return result;
  }
  result.complete = needed() < 0;
  return result;
}

}  // namespace

// Thresholds are watched only where the cheapest way misses them: first none, then the missed ones too.
Finished finish(const ExactModel& model, const std::vector<int>& values, const Table& pressure, std::int64_t best) {
  if (!keeps_bundle_limits(model, values)) return {};
  std::vector<bool> watched;
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    watched.push_back(model.suppliers[s][values[model.columns.size() + s]].slack > 0);
  }
  Finished result;
  for (;;) {
    const Settled settled = settle(model, values, pressure, watched);
    if (settled.watched.size() > kMostWatched) return {false, result.plan, result.cost};
    std::vector<int> misjudged;
    const Finished finished = pass(settled, best, misjudged);
    if (finished.plan) {
      result = finished;
      best = finished.cost;
    }
    result.complete = finished.complete;
    if (finished.complete || misjudged.empty()) return result;
    for (int s : misjudged) watched[s] = true;
  }
}

}  // namespace teetally
