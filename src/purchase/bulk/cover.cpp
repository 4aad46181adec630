#include "purchase/bulk/cover.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace teetally {
namespace {

constexpr double kMostWork = 1e7;        // of a table
constexpr double kMostRemainders = 6e7;  // of the steps over remainders
constexpr double kNoWay = std::numeric_limits<double>::infinity();
// A sum of n prices is off by at most n roundings; no table here adds more than ten million.
constexpr double kSure = 1 - 1e7 * std::numeric_limits<double>::epsilon();

// Without those that another beats in content and price.
std::vector<CoverItem> worthwhile(std::vector<CoverItem> items) {
  std::sort(items.begin(), items.end(), [](const CoverItem& a, const CoverItem& b) {
    return a.content > b.content || (a.content == b.content && a.price < b.price);
  });
  std::vector<CoverItem> kept;
  for (const CoverItem& item : items) {
    if (item.content > 0 && (kept.empty() || item.price < kept.back().price)) kept.push_back(item);
  }
  return kept;
}

double by_table(const std::vector<CoverItem>& items, std::int64_t unit, std::size_t cells) {
  std::vector<double> cost(cells + 1, kNoWay);
  cost[0] = 0;
  for (const CoverItem& item : items) {
    const auto step = static_cast<std::size_t>(item.content / unit);
    for (std::size_t v = 1; v <= cells; ++v) cost[v] = std::min(cost[v], cost[v > step ? v - step : 0] + item.price);
  }
  return cost[cells];
}

// Over what the other items leave of the best one's content (the group relaxation of the knapsack; Gomory, Linear
// Algebra and its Applications 2:451-558, 1969): each costs what it is dearer than as much of the best one.
class ByRemainders {
 public:
  ByRemainders(const std::vector<CoverItem>& items, std::size_t best, std::int64_t unit)
      : items_(items),
        best_(best),
        unit_(unit),
        round_(static_cast<std::size_t>(items[best].content / unit)),
        each_(items[best].price / static_cast<double>(round_)),
        cost_(round_, kNoWay) {
    cost_[0] = 0;
  }

  double run(std::int64_t cells) {
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (i != best_) use(items_[i]);
    }
    const auto wanted = static_cast<std::size_t>(cells % static_cast<std::int64_t>(round_));
    double least = kNoWay;
    for (std::size_t r = 0; r < round_; ++r) {
      const std::size_t over = r >= wanted ? r - wanted : r + round_ - wanted;
      least = std::min(least, cost_[r] + each_ * static_cast<double>(over));
    }
    return each_ * static_cast<double>(cells) + least;
  }

 private:
  // Any number of the item: round each of its cycles twice.
  void use(const CoverItem& item) {
    const auto step = static_cast<std::size_t>(item.content / unit_);
    const double dearer = std::max(0.0, item.price - each_ * static_cast<double>(step));
    const std::size_t by = step % round_;
    const std::size_t cycles = std::gcd(by, round_);
    for (std::size_t start = 0; start < cycles && by > 0; ++start) {
      std::size_t at = start;
      for (std::size_t i = 0; i < 2 * (round_ / cycles); ++i) {
        const std::size_t next = at + by < round_ ? at + by : at + by - round_;
        cost_[next] = std::min(cost_[next], cost_[at] + dearer);
        at = next;
      }
    }
  }

  const std::vector<CoverItem>& items_;
  std::size_t best_;
  std::int64_t unit_;
  std::size_t round_;
  double each_;
  std::vector<double> cost_;
};

double each_of(const CoverItem& item) { return item.price / static_cast<double>(item.content); }

}  // namespace

double least_cover(std::vector<CoverItem> items, std::int64_t amount) {
  if (amount <= 0) return 0;
  items = worthwhile(std::move(items));
  if (items.empty()) return kNoWay;
  std::int64_t unit = items.front().content;
  std::size_t best = 0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    unit = std::gcd(unit, items[i].content);
    if (each_of(items[i]) < each_of(items[best])) best = i;
  }
  const std::int64_t cells = (amount - 1) / std::max<std::int64_t>(1, unit) + 1;
  const auto count = static_cast<double>(items.size());
  if (count * static_cast<double>(cells) <= kMostWork) {
    return by_table(items, unit, static_cast<std::size_t>(cells)) * kSure;
  }
  if (2 * count * static_cast<double>(items[best].content) <= kMostRemainders * static_cast<double>(unit)) {
    return ByRemainders(items, best, unit).run(cells) * kSure;
  }
  return each_of(items[best]) * static_cast<double>(amount) * kSure;
}

}  // namespace teetally
