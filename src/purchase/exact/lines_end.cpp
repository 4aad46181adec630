// The end of the search over suppliers: the lines are shared out among the suppliers in use. At the node's worths each
// line has a cheapest supplier; any other choice costs its slack more, a threshold overshot its pressure, a threshold
// missed what fills it. A limit for all of that together leaves few lines free, and these are tried one after another.
#include <algorithm>
#include <cmath>

#include "purchase/exact/lines_list.h"

namespace teetally {
namespace {

constexpr double kWidestSlack = 4, kOvershoot = 400;  // minor units
constexpr std::size_t kMostAtOnce = 5;

}  // namespace

LineEnd::LineEnd(const LineList& list, const LineNode& node, Filler& filler)
    : list_(list), filler_(filler), priced_(node.priced) {
  const std::size_t suppliers = list.options.size();
  choices_.resize(list.lines);
  for (std::size_t s = 0; s < suppliers; ++s) {
    state_.push_back(settled_state(list, node, static_cast<int>(s)));
    if (state_[s] < 0) continue;
    const LineState& state = list.states[state_[s]];
    bound_ += state.fixed + (state.rate - priced_[state_[s]]) * state.from;
    if (state.from > 0) tight_.push_back(static_cast<int>(s));
    for (const LineOption& option : list.options[s]) {
      choices_[option.line].push_back({&option, static_cast<int>(s), option.price * priced_[state_[s]]});
    }
  }
  for (std::vector<Choice>& choices : choices_) {
    if (choices.empty()) {
      bound_ = kNever;
      return;
    }
    std::stable_sort(choices.begin(), choices.end(),
                     [](const Choice& a, const Choice& b) { return a.slack < b.slack; });
    const double least = choices.front().slack;
    bound_ += least;
    for (Choice& choice : choices) choice.slack -= least;
  }
}

// What goods between these two cost at least besides their prices.
double LineEnd::penalty(int supplier, double least, double most) const {
  const LineState& state = list_.states[state_[supplier]];
  if (state.from == 0) return 0;
  const double priced = priced_[state_[supplier]], pressure = state.rate - priced;
  if (least > state.from) return (least - state.from) * pressure;
  if (most >= state.from) return 0;
  const double gap = state.from - most;
  const auto sum = static_cast<double>(filler_.least_sum(supplier, static_cast<std::int64_t>(gap)));
  return sum * priced + (sum - gap) * pressure;
}

double LineEnd::penalties(std::size_t depth) const {
  double sum = 0;
  for (std::size_t t = 0; t < tight_.size(); ++t) {
    const double goods = goods_[tight_[t]];
    sum += penalty(tight_[t], goods + spans_[depth][t].least, goods + spans_[depth][t].most);
  }
  return sum;
}

// What an assignment costs above the bound.
double LineEnd::excess(const std::vector<std::size_t>& chosen) const {
  double sum = 0;
  for (std::size_t line = 0; line < chosen.size(); ++line) sum += choices_[line][chosen[line]].slack;
  for (const int s : tight_) sum += penalty(s, goods_[s], goods_[s]);
  return sum;
}

void LineEnd::apply(const Move& move, std::vector<std::size_t>& chosen) {
  std::vector<Choice>& choices = choices_[move.line];
  const Choice &from = choices[chosen[move.line]], &to = choices[move.choice];
  goods_[from.supplier] -= from.option->price;
  goods_[to.supplier] += to.option->price;
  chosen[move.line] = move.choice;
}

// The best share of one supplier against all that are not frozen: each line that stands at neither kind of others may
// come here or go to the cheapest of those. By dynamic programming over the goods of the supplier; what the others
// miss by that is left to them.
void LineEnd::share(int supplier, const std::vector<bool>& frozen, std::vector<std::size_t>& chosen) {
  const std::vector<Swing> swings = swings_of(supplier, frozen, chosen);
  double base = goods_[supplier];
  for (const Swing& swing : swings) {
    const Choice& now = choices_[swing.line][chosen[swing.line]];
    if (now.supplier == supplier) base -= now.option->price;
  }
  const auto width = static_cast<std::size_t>(std::max(0.0, list_.states[state_[supplier]].from - base) + kOvershoot);
  std::vector<double> least(width + 1, kNever), after(width + 1);
  least[0] = 0;
  std::vector<std::vector<bool>> comes(swings.size(), std::vector<bool>(width + 1, false));
  for (std::size_t i = 0; i < swings.size(); ++i) {
    const std::vector<Choice>& choices = choices_[swings[i].line];
    const auto price = static_cast<std::size_t>(choices[swings[i].here].option->price);
    for (std::size_t g = 0; g <= width; ++g) {
      after[g] = least[g] + choices[swings[i].away].slack;
      if (g < price || least[g - price] >= kNever) continue;
      const double taken = least[g - price] + choices[swings[i].here].slack;
      if (taken < after[g]) after[g] = taken, comes[i][g] = true;
    }
    least.swap(after);
  }
  std::size_t best = 0;
  double cost = kNever;
  for (std::size_t g = 0; g <= width; ++g) {
    if (least[g] >= kNever) continue;
    const double goods = base + static_cast<double>(g), total = least[g] + penalty(supplier, goods, goods);
    if (total < cost) cost = total, best = g;
  }
  for (std::size_t i = swings.size(); i-- > 0 && cost < kNever;) {
    const std::size_t choice = comes[i][best] ? swings[i].here : swings[i].away;
    if (comes[i][best]) best -= static_cast<std::size_t>(choices_[swings[i].line][choice].option->price);
    if (choice != chosen[swings[i].line]) apply({swings[i].line, choice}, chosen);
  }
}

void LineEnd::put_back(const std::vector<std::size_t>& old, std::vector<std::size_t>& chosen) {
  for (std::size_t line = 0; line < old.size(); ++line) {
    if (chosen[line] != old[line]) apply({static_cast<int>(line), old[line]}, chosen);
  }
}

std::vector<LineEnd::Swing> LineEnd::swings_of(int supplier, const std::vector<bool>& frozen,
                                               const std::vector<std::size_t>& chosen) const {
  std::vector<Swing> swings;
  for (std::size_t line = 0; line < chosen.size(); ++line) {
    const std::vector<Choice>& choices = choices_[line];
    if (frozen[choices[chosen[line]].supplier]) continue;
    Swing swing{static_cast<int>(line), choices.size(), choices.size()};
    for (std::size_t c = choices.size(); c-- > 0;) {
      if (choices[c].supplier == supplier) swing.here = c;
      if (choices[c].supplier != supplier && !frozen[choices[c].supplier]) swing.away = c;
    }
    if (swing.here == choices.size() || swing.away == choices.size()) continue;
    const double apart = choices[swing.here].slack - choices[swing.away].slack;
    if (std::abs(apart) <= kWidestSlack * kLineSteps) swings.push_back(swing);
  }
  return swings;
}

bool LineEnd::presses(int supplier) const {
  return list_.states[state_[supplier]].rate - priced_[state_[supplier]] > 1e-4 * kLineSteps;
}

// Some suppliers whose thresholds press share anew with all that do not press, one after another; the others keep
// their lines.
void LineEnd::share_anew(const std::vector<int>& order, std::vector<std::size_t>& chosen) {
  std::vector<bool> frozen(state_.size(), false);
  for (const int s : tight_) frozen[s] = presses(s);
  for (const int s : order) frozen[s] = false;
  for (std::size_t line = 0; line < chosen.size(); ++line) {
    const std::vector<Choice>& choices = choices_[line];
    if (frozen[choices[chosen[line]].supplier]) continue;
    std::size_t c = 0;
    while (frozen[choices[c].supplier]) ++c;
    if (c != chosen[line]) apply({static_cast<int>(line), c}, chosen);
  }
  for (const int s : order) {
    share(s, frozen, chosen);
    frozen[s] = true;
  }
}

// Large neighbourhood search: first all suppliers, then a few at random share anew; kept when that is no worse. Same
// input, same dice.
LineEnd::Picks LineEnd::polished(int rounds, const TimeLimit& limit) {
  std::vector<std::size_t> chosen(choices_.size(), 0);
  goods_.assign(state_.size(), 0);
  for (const auto& choices : choices_) goods_[choices.front().supplier] += choices.front().option->price;
  std::vector<int> order;
  for (const int s : tight_) {
    if (presses(s)) order.push_back(s);
  }
  share_anew(order, chosen);
  std::minstd_rand dice(1);
  double cost = excess(chosen);
  const double beyond = std::ceil(bound_ / kLineSteps) * kLineSteps - bound_;  // costs are whole: nothing is better
  for (int round = 0; round < rounds && cost > beyond && !order.empty() && !limit.over(); ++round) {
    for (std::size_t i = 0; i + 1 < order.size(); ++i) std::swap(order[i], order[i + dice() % (order.size() - i)]);
    const std::size_t few = std::min(order.size(), 1 + dice() % kMostAtOnce);
    const std::vector<std::size_t> old = chosen;
    share_anew({order.begin(), order.begin() + static_cast<std::ptrdiff_t>(few)}, chosen);
    const double now = excess(chosen);
    if (now > cost) put_back(old, chosen);
    cost = std::min(cost, now);
  }
  Picks picks;
  for (std::size_t line = 0; line < chosen.size(); ++line) picks.push_back(choices_[line][chosen[line]].option);
  return picks;
}

// Settles the lines that have one choice within the limit, and lists the others, dearest first.
void LineEnd::split(double limit) {
  goods_.assign(state_.size(), 0);
  picked_.assign(choices_.size(), nullptr);
  wide_.assign(choices_.size(), 0);
  free_.clear();
  for (std::size_t line = 0; line < choices_.size(); ++line) {
    const std::vector<Choice>& choices = choices_[line];
    while (wide_[line] < choices.size() && bound_ + choices[wide_[line]].slack <= limit) ++wide_[line];
    if (wide_[line] > 1) {
      free_.push_back(static_cast<int>(line));
    } else {
      picked_[line] = choices.front().option;
      goods_[choices.front().supplier] += choices.front().option->price;
    }
  }
  std::stable_sort(free_.begin(), free_.end(),
                   [&](int a, int b) { return choices_[a].front().option->price > choices_[b].front().option->price; });
}

void LineEnd::measure_spans() {
  spans_.assign(free_.size() + 1, std::vector<Span>(tight_.size()));
  for (std::size_t d = free_.size(); d-- > 0;) {
    const std::vector<Choice>& choices = choices_[free_[d]];
    for (std::size_t t = 0; t < tight_.size(); ++t) {
      Span span{kNever, 0};
      for (std::size_t c = 0; c < wide_[free_[d]]; ++c) {
        const double price = choices[c].supplier == tight_[t] ? choices[c].option->price : 0;
        span.least = std::min(span.least, price);
        span.most = std::max(span.most, price);
      }
      spans_[d][t] = {spans_[d + 1][t].least + span.least, spans_[d + 1][t].most + span.most};
    }
  }
}

void LineEnd::search(std::size_t depth, double spent) {
  if (--steps_ < 0 || spent + penalties(depth) > limit_) return;
  if (depth == free_.size()) {
    limit_ = std::min(limit_, visit_(picked_));
    return;
  }
  const int line = free_[depth];
  for (std::size_t c = 0; c < wide_[line] && spent + choices_[line][c].slack <= limit_ && steps_ >= 0; ++c) {
    const Choice& choice = choices_[line][c];
    goods_[choice.supplier] += choice.option->price;
    picked_[line] = choice.option;
    search(depth + 1, spent + choice.slack);
    goods_[choice.supplier] -= choice.option->price;
  }
}

bool LineEnd::all_within(double limit, std::int64_t& steps, const Visit& visit) {
  split(limit);
  measure_spans();
  limit_ = limit;
  steps_ = steps;
  visit_ = visit;
  search(0, bound_);
  steps = steps_;
  return steps_ >= 0;
}

}  // namespace teetally
