// Ascent one worth or one pressure at a time (for worths: Bilde and Krarup, Annals of Discrete Math. 1, 1977;
// Erlenkotter, Operations Research 26, 1978). It ends where no single one can rise; subgradient steps lead on from
// there.
#include <algorithm>
#include <cmath>

#include "purchase/exact/lines_list.h"

namespace teetally {
namespace {

constexpr double kMostWorth = 0x1p51;  // of all lines together, in steps: sums stay exact

struct Seller {
  int supplier = -1;
  double price = 0;  // at its cheapest
};

class Ascent {
 public:
  Ascent(const LineList& list, LineNode& node)
      : list_(list), node_(node), value_(list.states.size(), 0), sellers_(list.lines) {
    for (std::size_t k = 0; k < value_.size(); ++k) evaluate(static_cast<int>(k));
    for (std::size_t s = 0; s < list.cheapest.size(); ++s) {
      bool may_be_used = false;
      for (int k = list.first[s]; k < list.first[s + 1]; ++k) {
        may_be_used = may_be_used || (node.may[k] && list.states[k].used);
      }
      if (!may_be_used) continue;
      for (const LineOption& option : list.cheapest[s]) {
        sellers_[option.line].push_back({static_cast<int>(s), option.price});
      }
    }
  }

  void run(int passes) {
    for (int pass = 0; pass < passes; ++pass) {
      for (std::size_t k = 0; k < value_.size(); ++k) {
        if (node_.may[k] && list_.states[k].used && list_.states[k].from > 0) press(static_cast<int>(k));
      }
      for (int line = 0; line < list_.lines; ++line) weigh(line);
    }
  }

 private:
  void evaluate(int k) {
    if (node_.may[k]) value_[k] = value_of(list_, node_, k);
  }

  // The price of a unit at which the state's lines that are worth more just reach the threshold.
  void press(int k) {
    const LineState& state = list_.states[k];
    by_worth_.clear();
    for (const LineOption& option : list_.cheapest[state.supplier]) {
      const double price = std::max(option.price, 1.0);
      by_worth_.emplace_back(std::floor(node_.worth[option.line] / price), option.price);
    }
    std::sort(by_worth_.begin(), by_worth_.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    double goods = 0, priced = 0;
    for (const auto& [each, price] : by_worth_) {
      goods += price;
      if (goods < state.from) continue;
      priced = each;
      break;
    }
    const double before = value_[k], was = node_.priced[k];
    node_.priced[k] = std::clamp(priced, 0.0, state.rate);
    evaluate(k);
    if (value_[k] < before) node_.priced[k] = was, value_[k] = before;  // whole steps may lie beside the best
  }

  // A supplier's part of the bound is a constant up to some worth of the line, and falls with the worth from there on.
  // The bound is highest between the lowest and the second lowest of those worths.
  void weigh(int line) {
    double first = kNever, second = kNever;
    const double worth = node_.worth[line];
    for (const Seller& seller : sellers_[line]) {
      double constant = kNever, falling = kNever;
      for (int k = list_.first[seller.supplier]; k < list_.first[seller.supplier + 1]; ++k) {
        if (!node_.may[k]) continue;
        const double price = seller.price * node_.priced[k];
        const double without = list_.states[k].used ? value_[k] + std::max(0.0, worth - price) : value_[k];
        constant = std::min(constant, without);
        if (list_.states[k].used) falling = std::min(falling, without + price);
      }
      const double from = falling - constant;
      if (from < first) {
        second = first, first = from;
      } else if (from < second) {
        second = from;
      }
    }
    const double most = kMostWorth / list_.lines;
    if (first > most) return;
    const double better = std::clamp(worth, first, std::min(std::max(first, second), most));
    if (better != worth) move_to(line, better);
  }

  void move_to(int line, double worth) {
    for (const Seller& seller : sellers_[line]) {
      for (int k = list_.first[seller.supplier]; k < list_.first[seller.supplier + 1]; ++k) {
        if (!node_.may[k] || !list_.states[k].used) continue;
        const double price = seller.price * node_.priced[k];
        value_[k] += std::max(0.0, node_.worth[line] - price) - std::max(0.0, worth - price);
      }
    }
    node_.worth[line] = worth;
  }

  const LineList& list_;
  LineNode& node_;
  std::vector<double> value_;                 // by state
  std::vector<std::vector<Seller>> sellers_;  // by line: suppliers that may be used
  std::vector<std::pair<double, double>> by_worth_;
};

}  // namespace

double value_of(const LineList& list, const LineNode& node, int k) {
  const LineState& state = list.states[k];
  if (!state.used) return 0;
  double value = state.fixed + (state.rate - node.priced[k]) * state.from;
  for (const LineOption& option : list.cheapest[state.supplier]) {
    value += std::min(0.0, option.price * node.priced[k] - node.worth[option.line]);
  }
  return value;
}

void ascend(const LineList& list, LineNode& node, int passes) { Ascent(list, node).run(passes); }

}  // namespace teetally
