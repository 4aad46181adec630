// Whether pieces can be cut from coils: quick fits first, then the relaxation, which shows most impossible tasks to
// be so and leads to a cut of most possible ones, then a search that fills one group after another.
#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "purchase/cut/task.h"

namespace teetally {
namespace {

constexpr std::size_t kMostSets = 400;
constexpr int kMostDives = 200;
constexpr std::int64_t kMostPieces = 2'000;  // for the search, which goes one level deeper with each

std::int64_t pieces_in(const CutTask& task) {
  return std::accumulate(task.pieces.begin(), task.pieces.end(), std::int64_t{0},
                         [](std::int64_t sum, const PieceKind& piece) { return sum + piece.count; });
}

// Longest piece first into the open coil with the least room for it, else into a new coil, shortest or longest
// first. Nothing is joined.
class QuickFit {
 public:
  QuickFit(const CutTask& task, bool shortest) : task_(task), shortest_(shortest) {
    for (const CoilKind& coil : task.coils) unused_.push_back(coil.count);
  }

  std::optional<std::vector<CutGroup>> run() {
    for (std::size_t k = 0; k < task_.pieces.size(); ++k) {
      for (std::int64_t left = task_.pieces[k].count; left > 0;) {
        const std::int64_t laid = put(static_cast<int>(k), task_.pieces[k], left);
        if (laid == 0) return std::nullopt;
        left -= laid;
      }
    }
    return std::move(groups_);
  }

 private:
  using Open = std::set<std::pair<std::int64_t, int>>;  // room, group

  // Answers how many were laid: the coil with the least room for a piece stays that one while it has room for another.
  std::int64_t put(int kind, const PieceKind& piece, std::int64_t left) {
    std::pair<std::int64_t, int> best{-1, -1};
    for (const auto& [serves, open] : open_) {
      const auto fit = open.lower_bound({piece.length, -1});
      if ((serves >> piece.need & 1U) == 0 || fit == open.end()) continue;
      if (best.second < 0 || *fit < best) best = *fit;
    }
    if (best.second < 0) best = new_coil(piece);
    if (best.second < 0) return 0;
    const std::int64_t laid = std::min(left, best.first / piece.length);
    CutGroup& group = groups_[static_cast<std::size_t>(best.second)];
    Open& open = open_[task_.coils[static_cast<std::size_t>(group.coils[0])].serves];
    group.pieces.insert(group.pieces.end(), static_cast<std::size_t>(laid), kind);
    open.erase(best);
    open.emplace(best.first - laid * piece.length, best.second);
    return laid;
  }

  std::pair<std::int64_t, int> new_coil(const PieceKind& piece) {
    int coil = -1;
    for (std::size_t c = 0; c < task_.coils.size(); ++c) {
      const CoilKind& candidate = task_.coils[c];
      const bool fits =
          unused_[c] > 0 && candidate.length >= piece.length && (candidate.serves >> piece.need & 1U) != 0;
      if (!fits) continue;
      const bool better =
          coil < 0 || (candidate.length < task_.coils[static_cast<std::size_t>(coil)].length) == shortest_;
      if (better) coil = static_cast<int>(c);
    }
    if (coil < 0) return {-1, -1};
    const CoilKind& kind = task_.coils[static_cast<std::size_t>(coil)];
    --unused_[static_cast<std::size_t>(coil)];
    groups_.push_back({{coil}, {}});
    const std::pair<std::int64_t, int> opened{kind.length, static_cast<int>(groups_.size()) - 1};
    open_[kind.serves].insert(opened);
    return opened;
  }

  const CutTask& task_;
  bool shortest_;
  std::vector<std::int64_t> unused_;
  std::map<std::uint64_t, Open> open_;  // by what their coils serve
  std::vector<CutGroup> groups_;
};

std::optional<std::vector<CutGroup>> quick_fit(const CutTask& task, bool shortest) {
  return QuickFit(task, shortest).run();
}

// Fills groups one after another, each with the longest piece left, until all pieces are laid or every way of
// filling was tried. Only full groups are tried (no piece left over would still fit), and only such that waste no
// more than the coils have too much in all.
class Filler {
 public:
  Filler(CutTask task, std::int64_t most_steps)
      : task_(std::move(task)), most_steps_(most_steps), sets_(coil_sets(task_, kMostSets)) {
    complete_ = sets_.size() < kMostSets;
    for (const std::vector<int>& set : sets_) {
      for (const int coil : set) complete_ = complete_ && of(coil).serves == of(set[0]).serves;
      lengths_.push_back(0);
      for (const int coil : set) lengths_.back() += of(coil).length;
    }
    for (const CoilKind& coil : task_.coils) spare_ += coil.length * coil.count;
    for (const PieceKind& piece : task_.pieces) spare_ -= piece.length * piece.count;
  }

  Cuttable run() {
    if (spare_ < 0) return Cuttable::no;
    if (next_group()) return Cuttable::yes;
    return complete_ ? Cuttable::no : Cuttable::unknown;
  }
  std::vector<CutGroup> groups() && { return std::move(groups_); }

 private:
  const CoilKind& of(int coil) const { return task_.coils[static_cast<std::size_t>(coil)]; }

  bool stop() {
    if (steps_++ < most_steps_) return false;
    complete_ = false;
    return true;
  }

  std::vector<std::int64_t> state() const {
    std::vector<std::int64_t> counts{task_.joins};
    for (const CoilKind& coil : task_.coils) counts.push_back(coil.count);
    for (const PieceKind& piece : task_.pieces) counts.push_back(piece.count);
    return counts;
  }

  bool next_group() {
    std::size_t longest = 0;
    while (longest < task_.pieces.size() && task_.pieces[longest].count == 0) ++longest;
    if (longest == task_.pieces.size()) return true;
    if (stop()) return false;
    std::vector<std::int64_t> now = state();
    if (failed_.contains(now)) return false;
    for (std::size_t s = 0; s < sets_.size(); ++s) {
      if (lengths_[s] < task_.pieces[longest].length || !take(s, longest)) continue;
      --task_.pieces[longest].count;
      groups_.push_back({sets_[s], {static_cast<int>(longest)}});
      if (fill(longest, lengths_[s] - task_.pieces[longest].length)) return true;
      groups_.pop_back();
      ++task_.pieces[longest].count;
      give_back(s);
    }
    if (complete_) failed_.insert(std::move(now));
    return false;
  }

  // The set's coils, when there are enough left and joins for them.
  bool take(std::size_t s, std::size_t piece) {
    const auto joins = static_cast<std::int64_t>(sets_[s].size()) - 1;
    if (joins > task_.joins) return false;
    if ((of(sets_[s][0]).serves >> task_.pieces[piece].need & 1U) == 0) return false;
    bool enough = true;
    for (const int coil : sets_[s]) enough = --task_.coils[static_cast<std::size_t>(coil)].count >= 0 && enough;
    task_.joins -= joins;
    if (!enough) give_back(s);
    return enough;
  }
  void give_back(std::size_t s) {
    for (const int coil : sets_[s]) ++task_.coils[static_cast<std::size_t>(coil)].count;
    task_.joins += static_cast<std::int64_t>(sets_[s].size()) - 1;
  }

  bool served(const PieceKind& piece) const { return (of(groups_.back().coils[0]).serves >> piece.need & 1U) != 0; }

  // Adds pieces of this kind and shorter ones to the last group.
  bool fill(std::size_t kind, std::int64_t room) {
    while (kind < task_.pieces.size() &&
           (task_.pieces[kind].count == 0 || task_.pieces[kind].length > room || !served(task_.pieces[kind]))) {
      ++kind;
    }
    if (kind == task_.pieces.size()) return closed(room);
    if (stop()) return false;
    PieceKind& piece = task_.pieces[kind];
    const std::int64_t most = std::min(piece.count, room / piece.length);
    for (std::int64_t n = 0; n < most; ++n) groups_.back().pieces.push_back(static_cast<int>(kind));
    piece.count -= most;
    for (std::int64_t n = most; n >= 0; --n) {
      if (fill(kind + 1, room - n * piece.length)) return true;
      if (n == 0) break;
      ++piece.count;
      groups_.back().pieces.pop_back();
    }
    return false;
  }

  bool closed(std::int64_t room) {
    for (const PieceKind& piece : task_.pieces) {
      if (piece.count > 0 && piece.length <= room && served(piece)) return false;
    }
    if (room > spare_) return false;
    const CutGroup group = groups_.back();
    if (group.coils.size() > 1 && !lay_group(task_, group)) {
      complete_ = false;
      return false;
    }
    spare_ -= room;
    const bool done = next_group();
    if (!done) spare_ += room;
    return done;
  }

  CutTask task_;
  std::int64_t most_steps_;
  std::vector<std::vector<int>> sets_;
  std::vector<std::int64_t> lengths_;
  std::int64_t spare_ = 0, steps_ = 0;
  bool complete_ = true;
  std::vector<CutGroup> groups_;
  std::set<std::vector<std::int64_t>> failed_;
};

// Follows the relaxation: whole groups are kept, then the likeliest one, and what is left is relaxed again.
class Dive {
 public:
  // `share`: how much of what the relaxation uses fully is kept before it is asked again.
  Dive(const CutTask& task, double share) : left_(task), share_(share) {}

  std::optional<std::vector<CutGroup>> run(const Relaxation& first, std::int64_t most_steps) {
    Relaxation relaxed = first;
    for (int i = 0; i < kMostDives; ++i) {
      if (!keep(relaxed)) return std::nullopt;
      const std::int64_t pieces = pieces_in(left_);
      if (pieces == 0) return std::move(groups_);
      if (pieces <= 60) {
        Filler filler(left_, most_steps / 10);
        if (filler.run() == Cuttable::yes) {
          for (CutGroup& group : std::move(filler).groups()) groups_.push_back(std::move(group));
          return std::move(groups_);
        }
      }
      relaxed = relax(left_, Proving::no);
      if (!relaxed.possible) return std::nullopt;
    }
    return std::nullopt;
  }

 private:
  bool keep(const Relaxation& relaxed) {
    bool kept = false;
    std::size_t likeliest = 0;
    double most = -1;
    for (std::size_t g = 0; g < relaxed.groups.size(); ++g) {
      const double times = relaxed.times[g];
      for (int n = 0; n < static_cast<int>(std::floor(times * share_ + 1e-6)); ++n)
        kept = take(relaxed.groups[g]) || kept;
      const double part = times - std::floor(times + 1e-6);
      if (part > most) most = part, likeliest = g;
    }
    return kept || (!relaxed.groups.empty() && take(relaxed.groups[likeliest]));
  }

  // As much of the group as is still wanted.
  bool take(const CutGroup& group) {
    std::vector<std::int64_t> coils(left_.coils.size(), 0);
    for (const int coil : group.coils) ++coils[static_cast<std::size_t>(coil)];
    for (std::size_t c = 0; c < coils.size(); ++c) {
      if (coils[c] > left_.coils[c].count) return false;
    }
    const auto joins = static_cast<std::int64_t>(group.coils.size()) - 1;
    if (joins > left_.joins) return false;
    CutGroup wanted{group.coils, {}};
    for (const int piece : group.pieces) {
      PieceKind& kind = left_.pieces[static_cast<std::size_t>(piece)];
      if (kind.count == 0) continue;
      --kind.count;
      wanted.pieces.push_back(piece);
    }
    const bool laid = !wanted.pieces.empty() && (joins == 0 || lay_group(left_, wanted));
    if (!laid) {
      for (const int piece : wanted.pieces) ++left_.pieces[static_cast<std::size_t>(piece)].count;
      return false;
    }
    for (std::size_t c = 0; c < coils.size(); ++c) left_.coils[c].count -= coils[c];
    left_.joins -= joins;
    groups_.push_back(std::move(wanted));
    return true;
  }

  CutTask left_;
  double share_;
  std::vector<CutGroup> groups_;
};

}  // namespace

CutAnswer cut(const CutTask& task, std::int64_t most_steps, Proving proving) {
  if (task.pieces.empty()) return {Cuttable::yes, {}, {}};
  for (const bool shortest : {true, false}) {
    if (auto groups = quick_fit(task, shortest)) return {Cuttable::yes, std::move(*groups), {}};
  }
  const Relaxation relaxed = relax(task, proving);
  if (relaxed.bound) return {Cuttable::no, {}, relaxed.bound};
  if (!relaxed.possible && proving == Proving::no) return {};
  const bool few = pieces_in(task) <= kMostPieces;
  if (few) {
    Filler first(task, most_steps / 20);
    const Cuttable found = first.run();
    if (found == Cuttable::yes) return {found, std::move(first).groups(), {}};
    if (found == Cuttable::no) return {found, {}, {}};
  }
  for (const double share : {1.0, 0.9, 0.7, 0.5}) {
    if (auto groups = Dive(task, share).run(relaxed, most_steps)) return {Cuttable::yes, std::move(*groups), {}};
  }
  if (!few) return {};
  Filler last(task, most_steps);
  const Cuttable found = last.run();
  if (found == Cuttable::yes) return {found, std::move(last).groups(), {}};
  return {found, {}, {}};
}

}  // namespace teetally
