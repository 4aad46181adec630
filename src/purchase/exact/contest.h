#pragma once
// Which of several part-way sums are worth keeping: none that another beats in every respect - no dearer, and at least
// as near to every threshold. Goods beyond a threshold count no more than the threshold. Between equal costs the lower
// tie wins.
#include <algorithm>
#include <array>
#include <functional>
#include <iterator>
#include <utility>
#include <vector>

#include "purchase/exact/ways.h"

namespace teetally {

inline constexpr double kDust = 1e-6;  // minor units: far above what doubles lose here, far below one minor unit

using Merit = std::pair<double, std::int64_t>;  // minor units at the states' rates, and the tie

// The best merit with at least so many goods: both rise from step to step.
class Stair {
 public:
  // nullptr when nothing has so many.
  const Merit* at_least(std::int64_t goods) const {
    const auto step = place(goods);
    return step == steps_.end() ? nullptr : &step->second;
  }

  void add(std::int64_t goods, const Merit& merit) {
    const auto at = place(goods);
    if (at != steps_.end() && at->second <= merit) return;
    auto end = at, from = at;
    if (end != steps_.end() && end->first == goods) ++end;
    while (from != steps_.begin() && std::prev(from)->second >= merit) --from;
    const auto slot = steps_.erase(from, end);
    steps_.insert(slot, {goods, merit});
  }

 private:
  using Steps = std::vector<std::pair<std::int64_t, Merit>>;
  Steps::const_iterator place(std::int64_t goods) const {
    return std::lower_bound(steps_.begin(), steps_.end(), goods,
                            [](const auto& step, auto g) { return step.first < g; });
  }
  Steps steps_;
};

// One more goods value: a stair for each of some ranges of it, so that few of them are asked or changed at a time
// (Fenwick, Software: Practice and Experience 24(3), 1994).
class Stairs {
 public:
  explicit Stairs(std::vector<std::int64_t> goods) : goods_(std::move(goods)) {
    std::sort(goods_.begin(), goods_.end(), std::greater<>());
    goods_.erase(std::unique(goods_.begin(), goods_.end()), goods_.end());
    stairs_.resize(goods_.size() + 1);
  }

  // Whether something with at least so many of both passes `beats`.
  template <typename Beats>
  bool any(std::int64_t first, std::int64_t second, const Beats& beats) const {
    for (std::size_t i = rank(second); i > 0; i -= i & (~i + 1)) {
      const Merit* merit = stairs_[i].at_least(first);
      if (merit != nullptr && beats(*merit)) return true;
    }
    return false;
  }

  void add(std::int64_t first, std::int64_t second, const Merit& merit) {
    for (std::size_t i = rank(second); i < stairs_.size(); i += i & (~i + 1)) stairs_[i].add(first, merit);
  }

 private:
  std::size_t rank(std::int64_t goods) const {
    return 1 + static_cast<std::size_t>(std::lower_bound(goods_.begin(), goods_.end(), goods, std::greater<>()) -
                                        goods_.begin());
  }
  std::vector<std::int64_t> goods_;  // falling
  std::vector<Stair> stairs_;
};

// Sums are put in an order in which only an earlier one may beat a later one: goods that have to be equal, then falling
// goods. A sum is anything with `goods` (WatchedGoods), `other` and `tie`.
class Contest {
 public:
  explicit Contest(const SettledCounts& settled) : settled_(settled) {
    for (std::size_t z = 0; z < settled.watched.size(); ++z) {
      const bool open = settled.states[settled.watched[z]].to >= kMostGoods;
      (open && falling_.size() < 3 ? falling_ : equal_).push_back(z);
    }
  }

  template <typename Label>
  void keep_best(std::vector<Label>& labels) const {
    if (labels.size() < 2) return;
    std::vector<Entry> entries;
    entries.reserve(labels.size());
    for (std::size_t i = 0; i < labels.size(); ++i) entries.push_back(entry_of(labels[i], i));
    std::sort(entries.begin(), entries.end());
    std::vector<Label> kept;
    for (std::size_t from = 0, to = 0; from < entries.size(); from = to) {
      while (to < entries.size() && entries[to].same_equal(entries[from])) ++to;
      keep_from(entries, from, to, labels, kept);
    }
    labels.swap(kept);
  }

 private:
  struct Entry {
    WatchedGoods equal{};
    std::array<std::int64_t, 3> falling{};
    Merit merit;
    std::size_t index = 0;

    // Word by word: a call for each comparison of arrays would take most of the time.
    bool same_equal(const Entry& other) const {
      std::int64_t differ = 0;
      for (int i = 0; i < kMostWatched; ++i) differ |= equal[i] ^ other.equal[i];
      return differ == 0;
    }
    bool operator<(const Entry& other) const {
      for (int i = 0; i < kMostWatched; ++i) {
        if (equal[i] != other.equal[i]) return equal[i] < other.equal[i];
      }
      for (int i = 0; i < 3; ++i) {
        if (falling[i] != other.falling[i]) return falling[i] > other.falling[i];
      }
      if (merit.first != other.merit.first) return merit.first < other.merit.first;
      return merit.second != other.merit.second ? merit.second < other.merit.second : index < other.index;
    }
  };

  template <typename Label>
  void keep_from(const std::vector<Entry>& entries, std::size_t from, std::size_t to, const std::vector<Label>& labels,
                 std::vector<Label>& kept) const {
    std::vector<std::int64_t> third;
    for (std::size_t i = from; i < to; ++i) third.push_back(entries[i].falling[2]);
    Stairs stairs(std::move(third));
    for (std::size_t i = from; i < to; ++i) {
      const Entry& entry = entries[i];
      // The same goods cost the same; otherwise roundings may set two sums apart.
      if (i > from && labels[entries[i - 1].index].goods == labels[entry.index].goods) continue;
      const bool beaten = stairs.any(entry.falling[1], entry.falling[2],
                                     [&](const Merit& better) { return surely_better(better, entry.merit); });
      if (beaten) continue;
      kept.push_back(labels[entry.index]);
      stairs.add(entry.falling[1], entry.falling[2], entry.merit);
    }
  }

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
