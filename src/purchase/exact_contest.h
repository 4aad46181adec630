#pragma once
// Which of several part-way sums are worth keeping: none that another beats in every respect - no dearer, and at least
// as near to every threshold. Goods beyond a threshold count no more than the threshold. Between equal costs the lower
// tie wins.
#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <utility>
#include <vector>

#include "purchase/exact_ways.h"

namespace teetally {

inline constexpr double kDust = 1e-6;  // minor units: far above what doubles lose here, far below one minor unit

// Sums are put in an order in which only an earlier one may beat a later one: goods that have to be equal, then falling
// goods. A sum is anything with `goods` (WatchedGoods), `other` and `tie`.
class Contest {
 public:
  explicit Contest(const SettledCounts& settled) : settled_(settled) {
    for (std::size_t z = 0; z < settled.watched.size(); ++z) {
      const bool open = settled.states[settled.watched[z]].to >= kMostGoods;
      (open && falling_.size() < 2 ? falling_ : equal_).push_back(z);
    }
  }

  template <typename Label>
  void keep_best(std::vector<Label>& labels) const {
    std::vector<Entry> entries;
    entries.reserve(labels.size());
    for (std::size_t i = 0; i < labels.size(); ++i) entries.push_back(entry_of(labels[i], i));
    std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
      if (a.equal != b.equal) return a.equal < b.equal;
      if (a.falling != b.falling) return a.falling > b.falling;
      return a.merit != b.merit ? a.merit < b.merit : a.index < b.index;
    });
    std::vector<Label> kept;
    std::map<std::int64_t, Merit> stair;  // second goods, and the best merit with at least so much: both rising
    const Entry* last = nullptr;
    for (const Entry& entry : entries) {
      if (last == nullptr || last->equal != entry.equal) stair.clear();
      // The same goods cost the same; otherwise roundings may set two sums apart.
      const bool repeated = last != nullptr && labels[last->index].goods == labels[entry.index].goods;
      last = &entry;
      const auto better = stair.lower_bound(entry.falling[1]);
      if (repeated || (better != stair.end() && surely_better(better->second, entry.merit))) continue;
      kept.push_back(labels[entry.index]);
      if (better != stair.end() && better->second <= entry.merit) continue;
      const auto [place, fresh] = stair.insert_or_assign(entry.falling[1], entry.merit);
      for (auto low = place; low != stair.begin() && std::prev(low)->second >= entry.merit;) {
        low = stair.erase(std::prev(low));
      }
    }
    labels.swap(kept);
  }

 private:
  using Merit = std::pair<double, std::int64_t>;  // minor units at the states' rates, and the tie

  struct Entry {
    WatchedGoods equal{};
    std::array<std::int64_t, 2> falling{};
    Merit merit;
    std::size_t index = 0;
  };

  template <typename Label>
  Entry entry_of(const Label& label, std::size_t index) const {
    Entry entry;
    for (std::size_t i = 0; i < equal_.size(); ++i) entry.equal[i] = counted(label.goods, equal_[i]);
    for (std::size_t i = 0; i < falling_.size(); ++i) entry.falling[i] = counted(label.goods, falling_[i]);
    // From whole numbers, so that equal sums are equal.
    entry.merit = {static_cast<double>(label.other), label.tie};
    for (std::size_t z = 0; z < settled_.watched.size(); ++z) {
      entry.merit.first += static_cast<double>(label.goods[z]) * settled_.states[settled_.watched[z]].rate;
    }
    entry.index = index;
    return entry;
  }

  bool surely_better(const Merit& a, const Merit& b) const {
    return settled_.rounding > 0 ? a.first + settled_.rounding + kDust < b.first : a <= b;
  }

  std::int64_t counted(const WatchedGoods& goods, std::size_t slot) const {
    const SupplierState& state = settled_.states[settled_.watched[slot]];
    return state.to < kMostGoods ? goods[slot] : std::min(goods[slot], state.from);
  }

  const SettledCounts& settled_;
  std::vector<std::size_t> equal_, falling_;
};

}  // namespace teetally
