// The knapsack behind cutting: by a table where the lengths have a large common part, else by branch and bound.
#include <algorithm>
#include <limits>
#include <numeric>

#include "purchase/cut/task.h"

namespace teetally {
namespace {

constexpr std::int64_t kMostTable = 40'000;
constexpr std::int64_t kMostCells = 400'000;  // where lengths may be rounded
constexpr std::int64_t kUnbounded = std::numeric_limits<std::int64_t>::max();
constexpr int kMostSteps = 20'000;

struct Thing {
  int kind = -1;
  std::int64_t length = 0, worth = 0, most = 0;
};

// Kinds worth anything, dearest for their length first.
std::vector<Thing> things_of(const CutTask& task, const std::vector<std::int64_t>& worth, std::int64_t length,
                             std::uint64_t serves) {
  std::vector<Thing> things;
  for (std::size_t k = 0; k < task.pieces.size(); ++k) {
    const PieceKind& piece = task.pieces[k];
    const bool fits = piece.length <= length && (serves >> piece.need & 1U) != 0;
    if (!fits || worth[k] <= 0 || piece.count == 0) continue;
    things.push_back({static_cast<int>(k), piece.length, worth[k], std::min(piece.count, length / piece.length)});
  }
  std::stable_sort(things.begin(), things.end(), [](const Thing& a, const Thing& b) {
    return static_cast<double>(a.worth) * static_cast<double>(b.length) >
           static_cast<double>(b.worth) * static_cast<double>(a.length);
  });
  return things;
}

Filling by_table(const std::vector<Thing>& things, std::int64_t cells, std::int64_t part, std::size_t kinds) {
  std::vector<std::int64_t> best(static_cast<std::size_t>(cells) + 1, 0);
  std::vector<int> taken(best.size(), -1);
  for (std::size_t t = 0; t < things.size(); ++t) {
    const auto step = static_cast<std::size_t>(things[t].length / part);
    for (std::size_t c = step; c < best.size(); ++c) {
      if (best[c - step] + things[t].worth <= best[c]) continue;
      best[c] = best[c - step] + things[t].worth;
      taken[c] = static_cast<int>(t);
    }
  }
  Filling filling{best.back(), best.back(), std::vector<std::int64_t>(kinds, 0)};
  for (std::size_t c = best.size() - 1; taken[c] >= 0;) {
    const Thing& thing = things[static_cast<std::size_t>(taken[c])];
    ++filling.counts[static_cast<std::size_t>(thing.kind)];
    c -= static_cast<std::size_t>(thing.length / part);
  }
  return filling;
}

class Branching {
 public:
  Branching(const std::vector<Thing>& things, std::size_t kinds) : things_(things), now_(things.size(), 0) {
    filling_.counts.assign(kinds, 0);
  }

  Filling run(std::int64_t length) {
    const std::int64_t root = most_from(0, length);
    descend(0, length, 0);
    filling_.bound = steps_ > kMostSteps ? root : filling_.value;
    return std::move(filling_);
  }

 private:
  // What the rest of the things can add at most: the dearest for its length fills everything; rounded up.
  std::int64_t most_from(std::size_t first, std::int64_t room) const {
    if (first == things_.size()) return 0;
    const double most = static_cast<double>(room) * static_cast<double>(things_[first].worth) /
                        static_cast<double>(things_[first].length);
    return static_cast<std::int64_t>(most * (1 + 1e-12)) + 1;
  }

  void descend(std::size_t t, std::int64_t room, std::int64_t value) {
    if (value > filling_.value) keep(value);
    if (t == things_.size() || ++steps_ > kMostSteps) return;
    if (value + most_from(t, room) <= filling_.value) return;
    for (std::int64_t n = std::min(things_[t].most, room / things_[t].length); n >= 0; --n) {
      now_[t] = n;
      descend(t + 1, room - n * things_[t].length, value + n * things_[t].worth);
      if (steps_ > kMostSteps) break;
    }
    now_[t] = 0;
  }

  void keep(std::int64_t value) {
    filling_.value = value;
    for (std::size_t t = 0; t < things_.size(); ++t)
      filling_.counts[static_cast<std::size_t>(things_[t].kind)] = now_[t];
  }

  const std::vector<Thing>& things_;
  std::vector<std::int64_t> now_;
  Filling filling_;
  int steps_ = 0;
};

// With every length rounded down to cells, so that what fits still fits.
std::int64_t rounded_table(const std::vector<Thing>& things, std::int64_t length) {
  const std::int64_t cell = (length + kMostCells - 1) / kMostCells;
  std::vector<std::int64_t> best(static_cast<std::size_t>(length / cell) + 1, 0);
  for (const Thing& thing : things) {
    const auto step = static_cast<std::size_t>(thing.length / cell);
    if (step == 0) return kUnbounded;
    for (std::size_t c = step; c < best.size(); ++c) best[c] = std::max(best[c], best[c - step] + thing.worth);
  }
  return best.back();
}

}  // namespace

std::int64_t filling_bound(const CutTask& task, const std::vector<std::int64_t>& worth, std::int64_t length,
                           std::uint64_t serves) {
  const Filling filling = dearest_filling(task, worth, length, serves);
  if (filling.bound == filling.value) return filling.bound;
  return std::min(filling.bound, rounded_table(things_of(task, worth, length, serves), length));
}

Filling dearest_filling(const CutTask& task, const std::vector<std::int64_t>& worth, std::int64_t length,
                        std::uint64_t serves) {
  const std::vector<Thing> things = things_of(task, worth, length, serves);
  std::int64_t part = 0;
  for (const Thing& thing : things) part = std::gcd(part, thing.length);
  if (part == 0) return {0, 0, std::vector<std::int64_t>(task.pieces.size(), 0)};
  if (length / part <= kMostTable) return by_table(things, length / part, part, task.pieces.size());
  return Branching(things, task.pieces.size()).run(length);
}

}  // namespace teetally
