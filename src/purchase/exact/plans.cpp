#include "purchase/exact/plans.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace teetally {
namespace {

constexpr std::int64_t kMostTables = 64, kMostEntries = 16'000'000;  // of cached sets of loose tables
constexpr int kMostRounds = 400;
constexpr std::size_t kMostTried = 10'000;  // suggestions remembered

std::int64_t covered(const GroupColumn& column, int count) {
  std::int64_t units = 0;
  for (const ColumnPart& part : column.parts) units += part.brings.units * count;
  return units;
}

// One layer of a group's way to the end: a column with its count, or a loose offer.
struct Layer {
  const GroupColumn* column = nullptr;
  int count = 0;
  int part = -1;  // of the column
  const GroupOffer* offer = nullptr;
  double rate = 1;
  Table to_end;
};

}  // namespace

Plans::Plans(const ExactModel& model, Filler& filler, TimeLimit limit)
    : model_(&model), filler_(&filler), limit_(limit) {
  std::int64_t states = 1;
  for (const NeedGroup& group : model.groups) states += group.states;
  most_tables_ = static_cast<std::size_t>(std::clamp<std::int64_t>(kMostEntries / states, 1, kMostTables));
  for (std::size_t g = 0; g < model.groups.size(); ++g) {
    chains_.emplace_back(model, static_cast<int>(g));
    bool simple = model.groups[g].demand.size() == 1;
    for (const GroupColumn& column : model.groups[g].columns) {
      for (const ColumnPart& part : column.parts) simple = simple && !part.may_go();
    }
    simple_.push_back(simple);
  }
}

const std::vector<Table>& Plans::loose(const States& states) {
  const auto known = tables_.find(states);
  if (known != tables_.end()) return known->second;
  if (tables_.size() >= most_tables_) tables_.clear();
  std::vector<Table>& tables = tables_[states];
  for (const GroupChain& chain : chains_) {
    Table table(chain.full() + 1, kNever), after;
    table.back() = 0;
    for (std::size_t s = 0; s < states.size(); ++s) {
      const SupplierState& state = model_->suppliers[s][states[s]];
      if (!state.used || chain.group().offers[s].empty()) continue;
      chain.buy_backward(static_cast<int>(s), state.rate, table, after, 0);
      table.swap(after);
    }
    tables.push_back(std::move(table));
  }
  return tables;
}

// What a group costs with these bundles: loose packs for the rest, less credits taken (one part at a time, as
// many as pay; a guide for the descent, priced properly later).
double Plans::cost_with_credits(int group, const std::vector<int>& counts, const Table& table) const {
  const GroupChain& chain = chains_[group];
  reached_.assign(1, {0, 0.0});
  for (const GroupColumn& column : model_->groups[group].columns) {
    const int count = counts[column.column];
    if (count == 0) continue;
    for (const ColumnPart& part : column.parts) {
      after_.clear();
      for (const auto& [state, cost] : reached_) {
        for (int kept = part.may_go() ? 0 : count; kept <= count; ++kept) {
          chain.advance(state, part.brings, kept, next_);
          const double total = cost - (model_->measure.goods(part.credit, 1) + part.tie) * (count - kept);
          for (std::int64_t n : next_) after_.push_back({n, total});
        }
      }
      std::sort(after_.begin(), after_.end());  // of one state the cheapest first
      const auto same = [](const auto& a, const auto& b) { return a.first == b.first; };
      after_.erase(std::unique(after_.begin(), after_.end(), same), after_.end());
      reached_.swap(after_);
    }
  }
  double least = kNever;
  for (const auto& [state, cost] : reached_) least = std::min(least, cost + table[state]);
  return least;
}

// Bundle counts with what they cover and cost, kept up to date under small changes.
class Plans::Descent {
 public:
  Descent(const Plans& plans, std::vector<int>& counts, const States& states, const std::vector<Table>& tables)
      : plans_(plans), model_(*plans.model_), counts_(counts), tables_(tables) {
    for (std::size_t c = 0; c < counts.size(); ++c) {
      const BundleColumn& column = model_.columns[c];
      const SupplierState& state = model_.suppliers[column.supplier][states[column.supplier]];
      price_.push_back(model_.measure.goods(column.price - column.useless_credit, state.rate) + column.least_tie);
      if (state.used) {
        open_.push_back(static_cast<int>(c));
      } else {
        counts[c] = 0;
      }
    }
    units_.assign(model_.groups.size(), 0);
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      for (const GroupColumn& column : model_.groups[g].columns) units_[g] += covered(column, counts[column.column]);
      cost_.push_back(cost_of(static_cast<int>(g), units_[g]));
    }
  }

  const std::vector<int>& open() const { return open_; }
  double price(int c) const { return price_[c]; }
  bool may(int c, int by) const { return counts_[c] + by >= 0 && counts_[c] + by <= model_.columns[c].most; }

  double change(int c, int by) {
    double sum = by * price_[c];
    counts_[c] += by;
    for (const auto& [g, t] : model_.columns[c].groups) {
      sum += cost_of(g, units_[g] + covered(model_.groups[g].columns[t], by)) - cost_[g];
    }
    counts_[c] -= by;
    return sum;
  }

  void apply(int c, int by) {
    counts_[c] += by;
    for (const auto& [g, t] : model_.columns[c].groups) {
      units_[g] += covered(model_.groups[g].columns[t], by);
      cost_[g] = cost_of(g, units_[g]);
    }
  }

 private:
  double cost_of(int g, std::int64_t units) const {
    const Table& table = tables_[g];
    if (plans_.simple_[g]) return table[std::min<std::int64_t>(units, static_cast<std::int64_t>(table.size()) - 1)];
    return plans_.cost_with_credits(g, counts_, table);
  }

  const Plans& plans_;
  const ExactModel& model_;
  std::vector<int>& counts_;
  const std::vector<Table>& tables_;
  std::vector<int> open_;
  std::vector<double> price_, cost_;
  std::vector<std::int64_t> units_;
};

// One or two changes of bundle counts, and what they do to the cost.
struct Plans::Move {
  double change = -0.5;
  int first = -1, first_by = 0, second = -1, second_by = 0;
};

Plans::Move Plans::best_single(Descent& descent) const {
  Move move;
  for (int c : descent.open()) {
    for (int by : {-1, 1}) {
      if (!descent.may(c, by)) continue;
      const double change = descent.change(c, by);
      if (change < move.change) move = {change, c, by, -1, 0};
    }
  }
  return move;
}

Plans::Move Plans::best_pair(Descent& descent) const {
  Move move;
  for (int c : descent.open()) {
    for (int by : {-1, 1}) {
      const double one = descent.may(c, by) && !limit_.over() ? descent.change(c, by) : kNever;
      if (one > descent.price(c)) continue;
      descent.apply(c, by);
      for (int e : descent.open()) {
        for (int also : {-1, 1}) {
          if (e == c || !descent.may(e, also)) continue;
          const double both = one + descent.change(e, also);
          if (both < move.change) move = {both, c, by, e, also};
        }
      }
      descent.apply(c, -by);
    }
  }
  return move;
}

// Steepest descent by one bundle more or less, then by two at once.
void Plans::descend(std::vector<int>& counts, const States& states, Steps steps) {
  Descent descent(*this, counts, states, loose(states));
  for (int round = 0; round < kMostRounds && !limit_.over(); ++round) {
    Move move = best_single(descent);
    if (move.first < 0 && steps == Steps::of_two) move = best_pair(descent);
    if (move.first < 0) return;
    descent.apply(move.first, move.first_by);
    if (move.second >= 0) descent.apply(move.second, move.second_by);
  }
}

// Traces one group: from nothing covered to all covered, layer by layer, each offer once.
// NOLINTNEXTLINE(readability-function-size): one pass over one list, read from top to bottom
bool Plans::build_group(int group, const std::vector<int>& counts, const States& states, Plan& plan) const {
  const NeedGroup& g = model_->groups[group];
  const GroupChain& chain = chains_[group];
  std::vector<Layer> layers(1);
  layers[0].to_end.assign(chain.full() + 1, kNever);
  layers[0].to_end.back() = 0;
  for (std::size_t s = 0; s < states.size(); ++s) {
    const SupplierState& state = model_->suppliers[s][states[s]];
    if (!state.used) continue;
    for (const GroupOffer& offer : g.offers[s]) {
      Layer layer;
      layer.offer = &offer;
      layer.rate = state.rate;
      chain.offer_backward(offer, state.rate, layers.back().to_end, layer.to_end, 0);
      layers.push_back(std::move(layer));
    }
  }
  std::vector<std::int64_t> next;
  for (const GroupColumn& column : g.columns) {
    const int count = counts[column.column];
    if (count == 0) continue;
    const int s = model_->columns[column.column].supplier;
    for (std::size_t p = 0; p < column.parts.size(); ++p) {
      const ColumnPart& part = column.parts[p];
      Layer layer;
      layer.column = &column;
      layer.count = count;
      layer.part = static_cast<int>(p);
      layer.rate = model_->suppliers[s][states[s]].rate;
      layer.to_end.assign(chain.full() + 1, kNever);
      for (std::int64_t n = 0; n <= chain.full(); ++n) {
        for (int kept = part.may_go() ? 0 : count; kept <= count; ++kept) {
          chain.advance(n, part.brings, kept, next);
          const double credit = (model_->measure.goods(part.credit, layer.rate) + part.tie) * (count - kept);
          for (std::int64_t m : next) {
            layer.to_end[n] = std::min(layer.to_end[n], layers.back().to_end[m] - credit);
          }
        }
      }
      layers.push_back(std::move(layer));
    }
  }
  std::int64_t state = 0;
  for (std::size_t i = layers.size(); i-- > 1;) {
    const Layer& layer = layers[i];
    const Table& below = layers[i - 1].to_end;
    const double cost = layer.to_end[state];
    if (cost >= kNever / 2) return false;
    bool found = false;
    const auto take = [&](const Brings& brings, std::int64_t times, double price) {
      chain.advance(state, brings, times, next);
      for (std::int64_t m : next) {
        if (below[m] + price != cost) continue;
        state = m;
        return found = true;
      }
      return false;
    };
    if (layer.column != nullptr) {
      const ColumnPart& part = layer.column->parts[layer.part];
      const BundleColumn& column = model_->columns[layer.column->column];
      for (int kept = layer.count; kept >= (part.may_go() ? 0 : layer.count) && !found; --kept) {
        const double credit = model_->measure.goods(part.credit, layer.rate) + part.tie;
        if (!take(part.brings, kept, -credit * (layer.count - kept))) continue;
        if (kept < layer.count) plan.bundles[column.bundle].changed[part.part][part.choice] += layer.count - kept;
      }
      continue;
    }
    if (below[state] == cost) continue;
    const GroupOffer& offer = *layer.offer;
    std::int64_t& lots = plan.lots[offer.pack];
    for (std::size_t n = 0; n < offer.costs.size() && !found; ++n) {
      if (offer.costs[n] < 0) continue;
      const double price = model_->measure.goods(offer.costs[n], layer.rate) + offer.tie * static_cast<double>(n + 1);
      if (take(offer.brings, static_cast<std::int64_t>(n + 1), price)) lots += static_cast<std::int64_t>(n + 1);
    }
    for (const PriceRun& run : offer.runs) {
      for (std::int64_t more = 0; !found; ++more) {
        const double price = model_->measure.goods(run.start, layer.rate) + offer.tie * static_cast<double>(run.first) +
                             (model_->measure.goods(run.each, layer.rate) + offer.tie) * static_cast<double>(more);
        if (take(offer.brings, run.first + more, price)) lots += run.first + more;
        if (more > 0 && chain.is_enough(offer.brings, run.first + more)) break;
      }
    }
    if (!found) return false;
  }
  return true;
}

// Simulated annealing (Kirkpatrick, Gelatt and Vecchi, Science 220, 1983): one bundle more or fewer, or one exchanged
// for another; a dearer change is taken with a chance that falls as it cools. The best counts met are kept.
void Plans::anneal(std::vector<int>& counts, const States& states, std::int64_t shakes) {
  Descent descent(*this, counts, states, loose(states));
  const std::vector<int> open = descent.open();
  if (open.empty()) return;
  std::minstd_rand dice(1);
  const auto pick = [&](std::size_t sides) { return static_cast<std::size_t>(dice()) % sides; };
  double warmth = 0, sum = 0, best = 0;
  for (int c : open) warmth += descent.price(c) / static_cast<double>(10 * open.size());
  const double cooling = std::pow(model_->measure.minor / (1 + warmth), 1 / static_cast<double>(shakes));
  std::vector<int> best_counts = counts;
  for (std::int64_t i = 0; i < shakes && !(i % 4096 == 0 && limit_.over()); ++i, warmth *= cooling) {
    const int c = open[pick(open.size())], by = pick(2) == 0 ? 1 : -1;
    if (!descent.may(c, by)) continue;
    double change = descent.change(c, by);
    int other = -1;
    if (pick(2) == 0) {
      other = open[pick(open.size())];
      if (other == c || !descent.may(other, -by)) continue;
      descent.apply(c, by);
      change += descent.change(other, -by);
      descent.apply(c, -by);
    }
    const double chance = static_cast<double>(dice()) / static_cast<double>(std::minstd_rand::max());
    if (change > -warmth * std::log(chance)) continue;
    descent.apply(c, by);
    if (other >= 0) descent.apply(other, -by);
    sum += change;
    if (sum >= best) continue;
    best = sum;
    best_counts = counts;
  }
  counts = best_counts;
}

std::optional<Plan> Plans::build(const std::vector<int>& counts, const States& states) const {
  Plan plan = empty_plan(*model_->problem);
  plan.family = model_->family;
  for (std::size_t c = 0; c < counts.size(); ++c) {
    const BundleColumn& column = model_->columns[c];
    if (counts[c] == 0) continue;
    BundleCount& line = plan.bundles[column.bundle];
    line.count += counts[c];
    for (std::size_t p = 0; p < column.choice.size(); ++p) {
      if (column.choice[p] >= 0) line.changed[p][column.choice[p]] += counts[c];
    }
    for (const auto& [part, choice] : column.useless) line.changed[part][choice] += counts[c];
  }
  for (std::size_t g = 0; g < chains_.size(); ++g) {
    if (!build_group(static_cast<int>(g), counts, states, plan)) return std::nullopt;
  }
  filler_->top_up(plan, goods_of(*model_->problem, plan));
  return plan;
}

std::optional<Plans::Found> Plans::priced(const std::vector<int>& counts, const States& states,
                                          const Worth& best) const {
  const std::optional<Plan> plan = build(counts, states);
  if (!plan) return std::nullopt;
  std::int64_t cost = 0;
  const std::vector<std::int64_t> goods = goods_of(*model_->problem, *plan);
  for (std::size_t s = 0; s < goods.size(); ++s) {
    if (goods[s] > 0) cost += cost_of_order(model_->problem->suppliers[s], goods[s]).value_or(kMostGoods);
    if (cost > best.cost) return std::nullopt;
  }
  const std::optional<Rank> ranked = rank(*model_->problem, *plan);
  if (!ranked || ranked->cost > best.cost) return std::nullopt;
  const Worth worth = model_->measure.worth(*ranked);
  if (worth >= best) return std::nullopt;
  return Found{*plan, worth};
}

std::optional<Plans::Found> Plans::improve(const std::vector<int>& suggestion, const Worth& best) {
  std::vector<int> counts(suggestion.begin(), suggestion.begin() + static_cast<std::ptrdiff_t>(model_->columns.size()));
  const States states(suggestion.begin() + static_cast<std::ptrdiff_t>(model_->columns.size()), suggestion.end());
  if (tried_.size() >= kMostTried) tried_.clear();
  if (!tried_.insert(suggestion).second) return std::nullopt;
  descend(counts, states, Steps::of_two);
  if (counts == last_counts_ && states == last_states_) return std::nullopt;
  last_counts_ = counts;
  last_states_ = states;
  return priced(counts, states, best);
}

std::optional<Plans::Found> Plans::shake(const std::vector<int>& suggestion, const Worth& best, std::int64_t shakes) {
  std::vector<int> counts(suggestion.begin(), suggestion.begin() + static_cast<std::ptrdiff_t>(model_->columns.size()));
  const States states(suggestion.begin() + static_cast<std::ptrdiff_t>(model_->columns.size()), suggestion.end());
  descend(counts, states, Steps::of_two);
  if (std::all_of(simple_.begin(), simple_.end(), [](bool simple) { return simple; })) anneal(counts, states, shakes);
  descend(counts, states, Steps::of_two);
  return priced(counts, states, best);
}

// All suppliers, then each alone, then fewer of those that did best; in the end two bundles at once.
std::optional<Plans::Found> Plans::first(Worth best) {
  const std::size_t count = model_->suppliers.size();
  const auto may_go = [&](std::size_t s) { return !model_->suppliers[s].front().used; };
  States states;
  for (const std::vector<SupplierState>& of : model_->suppliers) states.push_back(static_cast<int>(of.size()) - 1);
  std::optional<Found> result;
  std::vector<int> counts;
  const auto attempt = [&](const States& tried) {
    std::vector<int> now(model_->columns.size(), 0);
    descend(now, tried, Steps::of_one);
    std::optional<Found> found = priced(now, tried, best);
    if (!found) return false;
    best = found->worth;
    result = std::move(found);
    counts = now;
    states = tried;
    return true;
  };
  const States all = states;
  attempt(all);
  for (std::size_t only = 0; only < count && !limit_.over(); ++only) {
    States alone = all;
    for (std::size_t s = 0; s < count; ++s) alone[s] = s == only || !may_go(s) ? all[s] : 0;
    if (alone != all) attempt(alone);
  }
  for (bool better = true; better;) {
    better = false;
    for (std::size_t s = 0; s < count && !limit_.over(); ++s) {
      if (!may_go(s) || states[s] == 0) continue;
      States fewer = states;
      fewer[s] = 0;
      better = attempt(fewer) || better;
    }
  }
  if (!result) return result;
  descend(counts, states, Steps::of_two);
  std::optional<Found> last = priced(counts, states, best);
  return last ? last : result;
}

}  // namespace teetally
