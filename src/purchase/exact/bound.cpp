#include "purchase/exact/bound.h"

#include <algorithm>
#include <cmath>

namespace teetally {
namespace {

constexpr double kCoolness = 50;

// Units one bundle of the column brings to the group, in the best case.
double units_of(const GroupColumn& column) {
  double units = 0;
  for (const ColumnPart& part : column.parts) units += static_cast<double>(part.brings.units);
  return units;
}

// What a unit of the group costs when bought loose, roughly: only to share a bundle's price sensibly.
double unit_value(const NeedGroup& group) {
  double value = kNever;
  for (std::size_t s = 0; s < group.offers.size(); ++s) {
    for (const GroupOffer& offer : group.offers[s]) {
      for (const PriceRun& run : offer.runs)
        value = std::min(value, static_cast<double>(run.each) / static_cast<double>(offer.brings.units));
      if (!offer.costs.empty())
        value = std::min(value,
                         static_cast<double>(offer.costs.back()) /
                             static_cast<double>(offer.brings.units * static_cast<std::int64_t>(offer.costs.size())));
    }
  }
  return value >= kNever ? 1 : std::max(value, 1e-6);
}

}  // namespace

Bound::Bound(const ExactModel& model) : model_(&model), columns_(static_cast<int>(model.columns.size())) {
  for (std::size_t g = 0; g < model.groups.size(); ++g) chains_.emplace_back(model, static_cast<int>(g));
  least_chain_.assign(chains_.size(), 0);
  least_pair_.assign(columns_, 0);
  factors_.resize(columns_ + model.suppliers.size());
  for (int c = 0; c < columns_; ++c) {
    for (const auto& [g, t] : model.columns[c].groups) factors_[c].push_back({g, t, -1, false});
    factors_[c].push_back({-1, -1, c, false});
    factors_[columns_ + model.columns[c].supplier].push_back({-1, -1, c, true});
  }
  for (std::size_t g = 0; g < chains_.size(); ++g) {
    for (int t = chains_[g].column_elements(); t < chains_[g].elements(); ++t) {
      factors_[chains_[g].variable(t)].push_back({static_cast<int>(g), t, -1, false});
    }
  }
}

double Bound::fixed_cost(const SupplierState& state, double pressure) const {
  if (!state.used) return 0;
  const double lifted = state.from > 0 ? model_->measure.goods(state.from, pressure) : 0;
  return state.fixed + state.scaled_tie + lifted;
}

// Adds the fixed costs of a supplier's states to its messages: evenly at first, then only what a new pressure
// changes.
void Bound::spread_fixed(SearchNode& node, int supplier, double old_pressure) const {
  const std::vector<Factor>& factors = factors_[columns_ + supplier];
  const std::vector<int>& values = node.domains[columns_ + supplier];
  for (std::size_t a = 0; a < values.size() && !factors.empty(); ++a) {
    const SupplierState& state = model_->suppliers[supplier][values[a]];
    double cost = fixed_cost(state, node.pressure[supplier]);
    if (old_pressure >= 0) cost -= fixed_cost(state, old_pressure);
    const double even = std::floor(cost / static_cast<double>(factors.size()));
    for (const Factor& factor : factors) messages(node, factor)[a] += even;
    messages(node, factors.front())[a] += cost - even * static_cast<double>(factors.size());
  }
}

// NOLINTNEXTLINE(readability-function-size): one pass over one list, read from top to bottom
SearchNode Bound::first_node(const std::vector<std::int64_t>& most) const {
  SearchNode node;
  node.pressure.assign(model_->suppliers.size(), 0);
  std::vector<double> value;
  for (const NeedGroup& group : model_->groups) value.push_back(unit_value(group));
  node.groups.resize(chains_.size());
  for (std::size_t g = 0; g < chains_.size(); ++g) {
    node.groups[g].columns.resize(model_->groups[g].columns.size());
    node.groups[g].suppliers.resize(chains_[g].present().size());
  }
  for (int c = 0; c < columns_; ++c) {
    const BundleColumn& column = model_->columns[c];
    std::vector<int>& counts = node.domains.emplace_back();
    for (std::int64_t k = 0; k <= most[c]; ++k) counts.push_back(static_cast<int>(k));
    double worth = 0;
    for (const auto& [g, t] : column.groups) worth += value[g] * units_of(model_->groups[g].columns[t]);
    for (const auto& [g, t] : column.groups) {
      const double price = model_->measure.goods(column.price - column.useless_credit, 1) + column.least_tie;
      const double share = std::floor(value[g] * units_of(model_->groups[g].columns[t]) / worth * price);
      for (int k : counts) node.groups[g].columns[t].push_back(share * k);
    }
    // The pair starts with minus what the chains were given; its own table holds the true price.
    PairMessages& pair = node.pairs.emplace_back();
    for (std::size_t a = 0; a < counts.size(); ++a) {
      double given = 0;
      for (const auto& [g, t] : column.groups) given += node.groups[g].columns[t][a];
      pair.counts.push_back(-given);
    }
    pair.states.assign(model_->suppliers[column.supplier].size(), 0);
  }
  for (std::size_t s = 0; s < model_->suppliers.size(); ++s) {
    std::vector<int>& states = node.domains.emplace_back();
    for (std::size_t a = 0; a < model_->suppliers[s].size(); ++a) states.push_back(static_cast<int>(a));
    for (const Factor& factor : factors_[columns_ + s]) {
      if (factor.column < 0) messages(node, factor).assign(states.size(), 0);
    }
    spread_fixed(node, static_cast<int>(s), -1);
  }
  return node;
}

double Bound::pair_margins(const SearchNode& node, int column, bool from_state, Table& result) const {
  const BundleColumn& c = model_->columns[column];
  const std::vector<int>& counts = node.domains[column];
  const std::vector<int>& states = node.domains[columns_ + c.supplier];
  const PairMessages& m = node.pairs[column];
  result.assign(from_state ? states.size() : counts.size(), kNever);
  double least = kNever;
  for (std::size_t b = 0; b < states.size(); ++b) {
    const SupplierState& state = model_->suppliers[c.supplier][states[b]];
    const double rate = state.used ? pack_rate(state, node.pressure[c.supplier]) : 0;
    const double each = model_->measure.goods(c.price - c.useless_credit, rate) + c.least_tie;
    for (std::size_t a = 0; a < counts.size(); ++a) {
      if (counts[a] > 0 && !state.used) continue;
      const double v = m.counts[a] + m.states[b] + each * counts[a];
      double& slot = result[from_state ? b : a];
      slot = std::min(slot, v);
      least = std::min(least, v);
    }
  }
  return least;
}

void Bound::margins(SearchNode& node, const Factor& factor, Table& result) {
  if (factor.column >= 0) {
    pair_margins(node, factor.column, factor.from_state, result);
  } else {
    chains_[factor.group].margins(factor.element, node.domains, node.groups[factor.group], node.pressure, result);
  }
}

double& Bound::least_of(const Factor& factor) {
  return factor.column >= 0 ? least_pair_[factor.column] : least_chain_[factor.group];
}

Table& Bound::messages(SearchNode& node, const Factor& factor) const {
  if (factor.column >= 0) {
    PairMessages& pair = node.pairs[factor.column];
    return factor.from_state ? pair.states : pair.counts;
  }
  ChainMessages& chain = node.groups[factor.group];
  const int t = factor.element, n = chains_[factor.group].column_elements();
  return t < n ? chain.columns[t] : chain.suppliers[t - n];
}

double Bound::start_pass(SearchNode& node, bool rising) {
  double total = 0;
  for (std::size_t g = 0; g < chains_.size(); ++g) {
    GroupChain& chain = chains_[g];
    chain.prepare(node.domains);
    if (rising) {
      for (int t = chain.elements(); t-- > 0;) chain.backward(t, node.domains, node.groups[g], node.pressure);
    } else {
      for (int t = 0; t < chain.elements(); ++t) chain.forward(t, node.domains, node.groups[g], node.pressure);
    }
    least_chain_[g] = rising ? chain.least_from_front() : chain.least_from_back();
    total += least_chain_[g];
  }
  Table scratch;
  for (int c = 0; c < columns_; ++c) {
    least_pair_[c] = pair_margins(node, c, false, scratch);
    total += least_pair_[c];
  }
  return total;
}

// Shares a variable's cost evenly among the places it stands in, and drops values that cannot pay.
// NOLINTNEXTLINE(readability-function-size): one pass over one list, read from top to bottom
bool Bound::update(SearchNode& node, int variable, double best, double& total) {
  std::vector<int>& values = node.domains[variable];
  const std::vector<Factor>& factors = factors_[variable];
  const std::size_t count = values.size();
  if (count == 1 || factors.empty()) {
    node.suggestion[variable] = values.front();
    return true;
  }
  Table& sum = sum_;
  sum.assign(count, 0);
  if (margin_.size() < factors.size()) margin_.resize(factors.size());
  double before = 0;
  for (std::size_t f = 0; f < factors.size(); ++f) {
    margins(node, factors[f], margin_[f]);
    before += least_of(factors[f]);
    for (std::size_t a = 0; a < count; ++a) sum[a] += margin_[f][a];
  }
  const double rest = total - before;
  const std::size_t liked = std::min_element(sum.begin(), sum.end()) - sum.begin();
  node.suggestion[variable] = values[liked];
  if (rest + sum[liked] > best) {
    total = rest + sum[liked];
    return false;
  }
  kept_.clear();
  for (std::size_t a = 0; a < count; ++a) {
    if (rest + sum[a] <= best) kept_.push_back(a);
  }
  const double share = static_cast<double>(factors.size());
  total = rest;
  for (std::size_t f = 0; f < factors.size(); ++f) {
    Table& message = messages(node, factors[f]);
    double least = kNever;
    for (std::size_t i = 0; i < kept_.size(); ++i) {  // in place: no value moves up
      const std::size_t a = kept_[i];
      const double even = std::floor(sum[a] / share);
      const double mine = f == 0 ? sum[a] - even * (share - 1) : even;
      message[i] = message[a] - margin_[f][a] + mine;
      least = std::min(least, mine);
    }
    message.resize(kept_.size());
    least_of(factors[f]) = least;
    total += least;
  }
  for (std::size_t i = 0; i < kept_.size(); ++i) values[i] = values[kept_[i]];
  values.resize(kept_.size());
  return true;
}

void Bound::step(SearchNode& node, int variable, bool rising) {
  const auto move = [&](std::size_t g, int element) {
    if (rising) {
      chains_[g].forward(element, node.domains, node.groups[g], node.pressure);
    } else {
      chains_[g].backward(element, node.domains, node.groups[g], node.pressure);
    }
  };
  for (const Factor& factor : factors_[variable]) {
    if (factor.column < 0) move(static_cast<std::size_t>(factor.group), factor.element);
  }
}

double Bound::work_of_sweep(const SearchNode& node) const {
  double work = 0;
  for (std::size_t g = 0; g < chains_.size(); ++g) {
    double values = 0;
    for (int t = 0; t < chains_[g].elements(); ++t) {
      values += static_cast<double>(node.domains[chains_[g].variable(t)].size());
    }
    work += values * static_cast<double>(model_->groups[g].states);
  }
  return work;
}

bool Bound::sweep(SearchNode& node, bool rising, double best) {
  ++sweeps_;
  work_ += work_of_sweep(node);
  const int variables = columns_ + static_cast<int>(model_->suppliers.size());
  node.suggestion.assign(variables, 0);
  double total = start_pass(node, rising);
  bool open = total <= best;
  for (int i = 0; i < variables && open; ++i) {
    const int variable = rising ? i : variables - 1 - i;
    open = update(node, variable, best, total);
    if (open) step(node, variable, rising);
  }
  node.bound = std::max(node.bound, total);
  return open;
}

// Where a settled bound leaves a variable undecided, several of its values cost about the same: the spread of these,
// weighted by how near they are to the least, tells how much the places it stands in disagree.
std::vector<Bound::Split> Bound::splits(SearchNode& node, double best) {
  const double total = start_pass(node, true);
  for (std::size_t g = 0; g < chains_.size(); ++g) {
    for (int t = 0; t < chains_[g].elements(); ++t) {
      chains_[g].forward(t, node.domains, node.groups[g], node.pressure);
    }
  }
  const double warmth = std::max((best - total) / kCoolness, model_->measure.minor);
  std::vector<Split> result;
  Table sum, one;
  for (std::size_t v = 0; v < node.domains.size(); ++v) {
    const std::size_t count = node.domains[v].size();
    if (count < 2 || factors_[v].empty()) continue;
    sum.assign(count, 0);
    for (const Factor& factor : factors_[v]) {
      margins(node, factor, one);
      for (std::size_t a = 0; a < count; ++a) sum[a] += one[a];
    }
    result.push_back(split_of(static_cast<int>(v), sum, warmth));
  }
  std::stable_sort(result.begin(), result.end(), [](const Split& a, const Split& b) { return a.spread > b.spread; });
  return result;
}

Bound::Split Bound::split_of(int variable, const Table& sum, double warmth) const {
  const double least = *std::min_element(sum.begin(), sum.end());
  double weight = 0, mean = 0, square = 0;
  for (std::size_t a = 0; a < sum.size(); ++a) {
    const double w = std::exp((least - sum[a]) / warmth), value = static_cast<double>(a);
    weight += w;
    mean += w * value;
    square += w * value * value;
  }
  mean /= weight;
  const double spread = std::max(0.0, square / weight - mean * mean);
  const auto last = static_cast<double>(sum.size() - 1);
  const auto at = static_cast<std::size_t>(std::clamp(std::floor(mean) + 1, 1.0, last));
  const auto cut = sum.begin() + static_cast<std::ptrdiff_t>(at);
  return {variable, at, *std::min_element(sum.begin(), cut) <= *std::min_element(cut, sum.end()), spread};
}

void Bound::restrict(SearchNode& node, int variable, const std::vector<bool>& keep) const {
  const auto cut = [&](auto& values) {
    std::size_t kept = 0;
    for (std::size_t a = 0; a < keep.size(); ++a) {
      if (keep[a]) values[kept++] = values[a];
    }
    values.resize(kept);
  };
  for (const Factor& factor : factors_[variable]) cut(messages(node, factor));
  cut(node.domains[variable]);
}

SearchNode Bound::child(const SearchNode& node, const Split& split, bool low) const {
  SearchNode result = node;
  std::vector<bool> keep(node.domains[split.variable].size());
  for (std::size_t a = 0; a < keep.size(); ++a) keep[a] = (a < split.at) == low;
  restrict(result, split.variable, keep);
  return result;
}

double Bound::evaluate(SearchNode& node) { return start_pass(node, true); }

void Bound::set_pressure(SearchNode& node, int supplier, double pressure) const {
  const double old = node.pressure[supplier];
  node.pressure[supplier] = pressure;
  spread_fixed(node, supplier, old);
}

}  // namespace teetally
