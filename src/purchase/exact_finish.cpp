#include "purchase/exact_finish.h"

#include <algorithm>
#include <cmath>

#include "purchase/exact_pick.h"

namespace teetally {
namespace {

constexpr double kFirstWindow = 16, kWidestWindow = 1e12;  // minor units

SettledCounts settle(const ExactModel& model, const std::vector<int>& values, const Table& pressure,
                     const std::vector<bool>& watched) {
  SettledCounts settled;
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
    settled.rounding += 2 * state.slack / model.measure.minor;
  }
  return settled;
}

// The settled bound at the bound's prices, scaled.
double bound_of(const SettledCounts& settled, const std::vector<Part>& parts) {
  double bound = 0;
  const auto value = [&](const PartWay& way) {
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
    for (const PartWay& way : part.ways) least = std::min(least, value(way));
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

Plan plan_of(const SettledCounts& settled, const std::vector<Part>& parts, const std::vector<int>& picked) {
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
void find_misjudged(const SettledCounts& settled, const Plan& plan, std::vector<int>& misjudged) {
  const std::vector<std::int64_t> goods = goods_of(*settled.model->problem, plan);
  for (std::size_t s = 0; s < goods.size(); ++s) {
    const SupplierState& state = settled.states[s];
    if (!state.used || settled.slot[s] >= 0) continue;
    if (goods[s] < state.from || goods[s] > state.to) misjudged.push_back(static_cast<int>(s));
  }
}

// One pass with a set of watched suppliers. The window grows from little to all that could beat the best plan, so
// that a good plan is known before many ways are listed. `misjudged` gets suppliers that turn out to need watching.
Finished pass(const SettledCounts& settled, Worth best, Effort effort, std::vector<int>& misjudged) {
  Finished result;
  result.complete = false;
  const std::optional<std::vector<Part>> narrow = list_ways(settled, settled.model->measure.minor);
  if (!narrow) return result;
  const double bound = bound_of(settled, *narrow);
  const auto needed = [&] { return best.cost < kMostGoods ? static_cast<double>(best.cost) - bound + 1 : kNever; };
  for (double width = kFirstWindow; width < kWidestWindow && needed() >= 0; width *= 4) {
    const double window = std::min(width, needed());
    const std::optional<std::vector<Part>> parts = list_ways(settled, (window + 1) * settled.model->measure.minor);
    if (!parts) return result;
    const bool last = window >= needed();
    const Picked picked = pick_ways(settled, *parts, best, last || effort == Effort::fair ? effort : Effort::glance);
    if (!picked.ways.empty()) {
      const Plan plan = plan_of(settled, *parts, picked.ways);
      const std::optional<Rank> ranked = rank(*settled.model->problem, plan);
      if (ranked && ranked->cost <= best.cost && settled.model->measure.worth(*ranked) < best) {
        result.plan = plan;
        best = result.worth = settled.model->measure.worth(*ranked);
      }
      if (!ranked || ranked->cost > picked.worth.cost) {
        find_misjudged(settled, plan, misjudged);
        return result;
      }
    }
    if (!picked.complete && (last || effort == Effort::fair)) return result;
    const bool all = std::all_of(parts->begin(), parts->end(), [](const Part& part) { return part.all; });
    result.complete = picked.complete && (all || window >= needed());
    if (result.complete) return result;
  }
  result.complete = needed() < 0;
  return result;
}

}  // namespace

// Thresholds are watched only where the cheapest way misses them: first none, then the missed ones too.
Finished finish(const ExactModel& model, const std::vector<int>& values, const Table& pressure, Worth best,
                Effort effort, TimeLimit limit) {
  if (!keeps_bundle_limits(model, values)) return {};
  std::vector<bool> watched;
  for (std::size_t s = 0; s < model.suppliers.size(); ++s) {
    watched.push_back(model.suppliers[s][values[model.columns.size() + s]].slack > 0);
  }
  Finished result;
  for (;;) {
    SettledCounts settled = settle(model, values, pressure, watched);
    settled.limit = limit;
    if (settled.watched.size() > kMostWatched) return {false, result.plan, result.worth};
    std::vector<int> misjudged;
    const Finished finished = pass(settled, best, effort, misjudged);
    if (finished.plan) {
      result = finished;
      best = finished.worth;
    }
    result.complete = finished.complete;
    if (finished.complete || misjudged.empty()) return result;
    for (int s : misjudged) watched[s] = true;
  }
}

}  // namespace teetally
