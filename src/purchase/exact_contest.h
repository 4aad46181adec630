#pragma once
// Which of several part-way sums are worth keeping: none that another beats in every respect - no dearer, and at least
// as near to every threshold. Goods beyond a threshold count no more than the threshold.
#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <vector>

#include "purchase/exact_ways.h"

namespace teetally {

// Sums are put in an order in which only an earlier one may beat a later one: goods that have to be equal, then falling
// goods. A sum is anything with `goods` (WatchedGoods) and `linear` (minor units).
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
      return a.linear != b.linear ? a.linear < b.linear : a.index < b.index;
    });
    std::vector<Label> kept;
    std::map<std::int64_t, double> stair;  // second goods, and the least cost with at least so much: both rising
    const Entry* last = nullptr;
    for (const Entry& entry : entries) {
      if (last == nullptr || last->equal != entry.equal) stair.clear();
      // The same goods cost the same; otherwise roundings may set two sums apart.
      const bool repeated =
          last != nullptr && labels[last->index].goods == labels[entry.index].goods && last->linear <= entry.linear;
      last = &entry;
      const auto better = stair.lower_bound(entry.falling[1]);
      if (repeated || (better != stair.end() && better->second + settled_.rounding <= entry.linear)) continue;
      kept.push_back(labels[entry.index]);
      const auto [place, fresh] = stair.insert_or_assign(entry.falling[1], entry.linear);
      for (auto low = place; low != stair.begin() && std::prev(low)->second >= entry.linear;) {
        low = stair.erase(std::prev(low));
      }
    }
    labels.swap(kept);
  }

 private:
  struct Entry {
    WatchedGoods equal{};
    std::array<std::int64_t, 2> falling{};
    double linear = 0;
    std::size_t index = 0;
  };

  template <typename Label>
  Entry entry_of(const Label& label, std::size_t index) const {
    Entry entry;
    for (std::size_t i = 0; i < equal_.size(); ++i) entry.equal[i] = counted(label.goods, equal_[i]);
    for (std::size_t i = 0; i < falling_.size(); ++i) entry.falling[i] = counted(label.goods, falling_[i]);
    entry.linear = label.linear;
    entry.index = index;
    return entry;
  }

  std::int64_t counted(const WatchedGoods& goods, std::size_t slot) const {
    const SupplierState& state = settled_.states[settled_.watched[slot]];
    return state.to < kMostGoods ? goods[slot] : std::min(goods[slot], state.from);
  }

  const SettledCounts& settled_;
  std::vector<std::size_t> equal_, falling_;
};

}  // namespace teetally
