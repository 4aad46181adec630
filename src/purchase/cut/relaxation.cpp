// Cutting relaxed to fractions of groups, by column generation (Gilmore & Gomory, Operations Research 9:849-859,
// 1961). What it proves is proved in whole numbers: its prices become a CutBound whose worth of every coil is the
// dearest filling of that coil, and whose worth of a join is raised until no group can beat the bound.
#include <algorithm>
#include <array>
#include <cmath>

#include "purchase/cut/simplex.h"
#include "purchase/cut/task.h"

namespace teetally {
namespace {

constexpr int kMostRounds = 400;
constexpr std::size_t kMostSets = 60;
constexpr double kPriceScale = 1e6;

std::int64_t length_of(const CutTask& task, const std::vector<int>& set) {
  std::int64_t sum = 0;
  for (const int coil : set) sum += task.coils[static_cast<std::size_t>(coil)].length;
  return sum;
}

std::uint64_t served_by_all(const CutTask& task, const std::vector<int>& set) {
  std::uint64_t serves = ~std::uint64_t{0};
  for (const int coil : set) serves &= task.coils[static_cast<std::size_t>(coil)].serves;
  return serves;
}

bool any_may_join(const CutTask& task) {
  return std::any_of(task.pieces.begin(), task.pieces.end(), [](const PieceKind& piece) { return piece.may_join; });
}

void extend(const CutTask& task, std::size_t size, std::size_t most, std::vector<int>& set,
            std::vector<std::vector<int>>& sets, bool within_count) {
  if (set.size() == size) {
    if (served_by_all(task, set) != 0) sets.push_back(set);
    return;
  }
  for (int c = set.empty() ? 0 : set.back(); c < static_cast<int>(task.coils.size()) && sets.size() < most; ++c) {
    const auto used = std::count(set.begin(), set.end(), c);
    if (within_count && used >= task.coils[static_cast<std::size_t>(c)].count) continue;
    set.push_back(c);
    extend(task, size, most, set, sets, within_count);
    set.pop_back();
  }
}

CutGroup group_of(const std::vector<int>& set, const std::vector<std::int64_t>& counts) {
  CutGroup group{set, {}};
  for (std::size_t k = 0; k < counts.size(); ++k)
    group.pieces.insert(group.pieces.end(), counts[k], static_cast<int>(k));
  return group;
}

std::vector<std::pair<int, double>> column_of(const CutTask& task, const CutGroup& group) {
  std::vector<std::pair<int, double>> column;
  const auto pieces = static_cast<int>(task.pieces.size()), coils = static_cast<int>(task.coils.size());
  for (const int piece : group.pieces) column.emplace_back(piece, 1.0);
  for (const int coil : group.coils) column.emplace_back(pieces + coil, 1.0);
  if (group.coils.size() > 1) column.emplace_back(pieces + coils, static_cast<double>(group.coils.size() - 1));
  return column;
}

// A bound from prices, valid whatever the prices are.
class BoundBuilder {
 public:
  BoundBuilder(const CutTask& task, const std::vector<double>& prices) : task_(task), prices_(prices) {}

  // Whether it shows that the task's coils and joins are too few.
  std::optional<CutBound> violated() {
    double dearest = 0;
    for (std::size_t k = 0; k < task_.pieces.size(); ++k) dearest = std::max(dearest, prices_[k]);
    if (dearest <= 0) return std::nullopt;
    for (const double scale : {12.0, 60.0, 840.0, 27720.0}) {
      CutBound bound = rounded(scale / dearest);
      if (const auto sharper = divided(bound); sharper && !holds(*sharper)) return sharper;
      if (!holds(bound)) return bound;
    }
    return std::nullopt;
  }

 private:
  bool holds(const CutBound& bound) const {
    std::int64_t sum = bound.join * task_.joins;
    for (std::size_t c = 0; c < task_.coils.size(); ++c) sum += bound.worth[c] * task_.coils[c].count;
    return sum >= bound.least;
  }

  CutBound rounded(double scale) {
    CutBound bound;
    worth_.clear();
    for (std::size_t k = 0; k < task_.pieces.size(); ++k) {
      worth_.push_back(static_cast<std::int64_t>(std::floor(prices_[k] * scale + 0.5)));
      bound.least += worth_.back() * task_.pieces[k].count;
    }
    for (std::size_t c = 0; c < task_.coils.size(); ++c) {
      const CoilKind& coil = task_.coils[c];
      const double price = prices_[task_.pieces.size() + c] * scale;
      const auto priced = static_cast<std::int64_t>(std::floor(price + 0.5));
      bound.worth.push_back(std::max(priced, filling_bound(task_, worth_, coil.length, coil.serves)));
    }
    if (any_may_join(task_)) bound.join = least_join(bound);
    return bound;
  }

  // All coils worth the same: whole coils, so the sum may be rounded up.
  static std::optional<CutBound> divided(const CutBound& bound) {
    std::int64_t worth = 0;
    for (const std::int64_t each : bound.worth) worth = std::max(worth, each);
    if (worth <= 1) return std::nullopt;
    CutBound result;
    for (const std::int64_t each : bound.worth) result.worth.push_back((each + worth - 1) / worth);
    result.join = (bound.join + worth - 1) / worth;
    result.least = (bound.least + worth - 1) / worth;
    return result;
  }

  // The least worth of a join with which no group of joined coils is worth more than its coils and joins. Groups of
  // few coils are looked at one by one. Larger ones hold at most `rate` for each unit of length, so that what
  // they exceed their coils by, for each join, is at most (coils / joins) times the worst excess of a coil. And a
  // join never needs to be worth more than the dearest piece that may be joined: leave such a piece out for
  // every join, and single coils are left.
  std::int64_t least_join(const CutBound& bound) const {
    std::int64_t dearest = 0;
    double rate = 0;
    std::int64_t worst = 0;
    for (std::size_t k = 0; k < task_.pieces.size(); ++k) {
      if (task_.pieces[k].may_join) dearest = std::max(dearest, worth_[k]);
      rate = std::max(rate, static_cast<double>(worth_[k]) / static_cast<double>(task_.pieces[k].length));
    }
    for (std::size_t c = 0; c < task_.coils.size(); ++c) {
      const double most = rate * static_cast<double>(task_.coils[c].length) * (1 + 1e-12) + 1e-6;
      worst = std::max(worst, static_cast<std::int64_t>(std::ceil(most)) - bound.worth[c]);
    }
    std::int64_t join = 0;
    std::size_t looked_at = 1;
    for (std::size_t size = 2; size <= 8; ++size) {
      std::vector<std::vector<int>> sets;
      std::vector<int> set;
      extend_all(size, set, sets);
      if (sets.size() > kMostSets) break;
      looked_at = size;
      for (const std::vector<int>& coils : sets) join = std::max(join, join_for(bound, coils));
      if (join >= dearest) return dearest;
    }
    const auto size = static_cast<std::int64_t>(looked_at + 1);
    return std::min(dearest, std::max(join, (worst * size + size - 2) / (size - 1)));
  }

  // Any coils at all: whoever buys more may join more.
  void extend_all(std::size_t size, std::vector<int>& set, std::vector<std::vector<int>>& sets) const {
    if (set.size() == size) {
      sets.push_back(set);
      return;
    }
    for (int c = set.empty() ? 0 : set.back(); c < static_cast<int>(task_.coils.size()) && sets.size() <= kMostSets;
         ++c) {
      set.push_back(c);
      extend_all(size, set, sets);
      set.pop_back();
    }
  }

  std::int64_t join_for(const CutBound& bound, const std::vector<int>& coils) const {
    std::int64_t own = 0;
    std::uint64_t serves = 0;
    for (const int coil : coils) {
      own += bound.worth[static_cast<std::size_t>(coil)];
      serves |= task_.coils[static_cast<std::size_t>(coil)].serves;
    }
    const auto joins = static_cast<std::int64_t>(coils.size()) - 1;
    const std::int64_t excess = dearest_filling(task_, worth_, length_of(task_, coils), serves).bound - own;
    return excess <= 0 ? 0 : (excess + joins - 1) / joins;
  }

  const CutTask& task_;
  const std::vector<double>& prices_;
  std::vector<std::int64_t> worth_;
};

class Generation {
 public:
  explicit Generation(const CutTask& task)
      : task_(task), sets_(coil_sets(task, kMostSets)), program_(demands(task), costs(task), rooms(task)) {}

  Relaxation run(Proving proving) {
    int rounds = 0;
    while (rounds++ < kMostRounds && add_columns()) {
    }
    Relaxation result;
    const double enough = 1e-7 * static_cast<double>(task_.pieces.front().length);
    result.possible = program_.shortage() <= enough || rounds > kMostRounds;
    if (!result.possible && proving == Proving::yes) result.bound = BoundBuilder(task_, program_.prices()).violated();
    for (const auto& [name, times] : program_.amounts()) {
      result.groups.push_back(columns_[static_cast<std::size_t>(name)]);
      result.times.push_back(times);
    }
    return result;
  }

 private:
  static std::vector<double> demands(const CutTask& task) {
    std::vector<double> demand;
    for (const PieceKind& piece : task.pieces) demand.push_back(static_cast<double>(piece.count));
    return demand;
  }
  static std::vector<double> costs(const CutTask& task) {
    std::vector<double> cost;
    for (const PieceKind& piece : task.pieces) {
      cost.push_back(static_cast<double>(piece.length) / static_cast<double>(task.pieces.front().length));
    }
    return cost;
  }
  static std::vector<double> rooms(const CutTask& task) {
    std::vector<double> room;
    for (const CoilKind& coil : task.coils) room.push_back(static_cast<double>(coil.count));
    room.push_back(static_cast<double>(task.joins));
    return room;
  }

  // For every set of coils the group that lowers the shortage most; false when none does.
  bool add_columns() {
    program_.settle();
    if (program_.shortage() < 1e-9) return false;
    bool added = false;
    for (const std::vector<int>& set : sets_) {
      const std::vector<double> prices = program_.prices();
      std::vector<std::int64_t> worth;
      for (std::size_t k = 0; k < task_.pieces.size(); ++k) {
        worth.push_back(static_cast<std::int64_t>(prices[k] * kPriceScale));
      }
      const Filling filling = dearest_filling(task_, worth, length_of(task_, set), served_by_all(task_, set));
      double own = static_cast<double>(set.size() - 1) * prices.back();
      for (const int coil : set) own += prices[task_.pieces.size() + static_cast<std::size_t>(coil)];
      if (static_cast<double>(filling.value) <= (own + 1e-5) * kPriceScale) continue;
      const CutGroup group = group_of(set, filling.counts);
      if (!program_.enter(column_of(task_, group), static_cast<int>(columns_.size()))) continue;
      columns_.push_back(group);
      added = true;
      program_.settle();
    }
    return added;
  }

  const CutTask& task_;
  std::vector<std::vector<int>> sets_;
  GrowingProgram program_;
  std::vector<CutGroup> columns_;
};

}  // namespace

std::vector<std::vector<int>> coil_sets(const CutTask& task, std::size_t most_sets) {
  std::vector<std::vector<int>> sets;
  std::vector<int> set;
  const std::int64_t most = any_may_join(task) ? task.joins + 1 : 1;
  for (std::int64_t size = 1; size <= most && sets.size() < most_sets; ++size) {
    const std::size_t before = sets.size();
    extend(task, static_cast<std::size_t>(size), most_sets, set, sets, true);
    if (sets.size() == before) break;
  }
  return sets;
}

Relaxation relax(const CutTask& task, Proving proving) { return Generation(task).run(proving); }

}  // namespace teetally
