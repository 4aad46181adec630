// Laying a group: pieces along its coils, whole where they fit, over the ends where they may be joined.
#include <algorithm>

#include "purchase/cut/task.h"

namespace teetally {
namespace {

constexpr int kMostSteps = 4000;

class Laying {
 public:
  Laying(const CutTask& task, const CutGroup& group)
      : task_(task), group_(group), coil_done_(group.coils.size(), false) {
    least_ = std::max<std::int64_t>(1, task.least_joined);
    left_ = group.pieces.size();
    for (std::size_t p = 0; p < group.pieces.size(); ++p) {
      const auto known = std::find_if(heaps_.begin(), heaps_.end(),
                                      [&](const Heap& heap) { return group.pieces[heap.front()] == group.pieces[p]; });
      (known == heaps_.end() ? heaps_.emplace_back() : *known).push_back(p);
    }
    laid_.assign(heaps_.size(), 0);
  }

  std::optional<std::vector<CutPart>> run() {
    if (!next_coil(-1, 0)) return std::nullopt;
    return std::move(parts_);
  }

 private:
  using Heap = std::vector<std::size_t>;  // pieces of one kind

  std::int64_t length_of(std::size_t piece) const {
    return task_.pieces[static_cast<std::size_t>(group_.pieces[piece])].length;
  }
  std::int64_t coil_length(std::size_t coil) const {
    return task_.coils[static_cast<std::size_t>(group_.coils[coil])].length;
  }
  bool serves(std::size_t coil, std::size_t piece) const {
    const std::uint64_t needs = task_.coils[static_cast<std::size_t>(group_.coils[coil])].serves;
    return (needs >> task_.pieces[static_cast<std::size_t>(group_.pieces[piece])].need & 1U) != 0;
  }
  // The same kind was tried before at this place.
  bool repeats(const std::vector<int>& kinds, const std::vector<bool>& done, std::size_t at) const {
    for (std::size_t i = 0; i < at; ++i) {
      if (!done[i] && kinds[i] == kinds[at]) return true;
    }
    return false;
  }

  // A coil that is not used yet; `open` is a piece of which `rest` is still to be laid, or -1.
  bool next_coil(int open, std::int64_t rest) {
    if (open < 0 && left_ == 0) return true;
    if (++steps_ > kMostSteps) return false;
    for (std::size_t c = 0; c < group_.coils.size(); ++c) {
      if (coil_done_[c] || repeats(group_.coils, coil_done_, c)) continue;
      if (open >= 0 && !serves(c, static_cast<std::size_t>(open))) continue;
      coil_done_[c] = true;
      if (open < 0 ? fill(c, coil_length(c)) : go_on(c, static_cast<std::size_t>(open), rest, coil_length(c))) {
        return true;
      }
      coil_done_[c] = false;
    }
    return false;
  }

  // Lays `rest` of a piece from here on.
  bool go_on(std::size_t c, std::size_t piece, std::int64_t rest, std::int64_t room) {
    const std::int64_t now = rest <= room ? rest : std::min(room, rest - least_);
    if (now < rest && now < least_) return false;
    parts_.push_back({static_cast<int>(c), static_cast<int>(piece), now});
    if (now == rest ? fill(c, room - now) : next_coil(static_cast<int>(piece), rest - now)) return true;
    parts_.pop_back();
    return false;
  }

  bool fill(std::size_t c, std::int64_t room) {
    if (left_ == 0) return true;
    if (++steps_ > kMostSteps) return false;
    for (const bool whole : {true, false}) {
      for (std::size_t k = 0; k < heaps_.size(); ++k) {
        if (laid_[k] == heaps_[k].size()) continue;
        const std::size_t p = heaps_[k][laid_[k]];
        if (!serves(c, p)) continue;
        if ((length_of(p) <= room) != whole) continue;
        if (!whole && (!task_.pieces[static_cast<std::size_t>(group_.pieces[p])].may_join || room < least_)) continue;
        ++laid_[k];
        --left_;
        if (go_on(c, p, length_of(p), room)) return true;
        ++left_;
        --laid_[k];
      }
    }
    return next_coil(-1, 0);
  }

  const CutTask& task_;
  const CutGroup& group_;
  std::vector<Heap> heaps_;        // longest pieces first, as the group has them
  std::vector<std::size_t> laid_;  // of each heap
  std::vector<bool> coil_done_;
  std::size_t left_ = 0;
  std::int64_t least_ = 1;
  std::vector<CutPart> parts_;
  int steps_ = 0;
};

// One coil, nothing to join: one piece after another, however many there are.
std::optional<std::vector<CutPart>> lay_along(const CutTask& task, const CutGroup& group) {
  const CoilKind& coil = task.coils[static_cast<std::size_t>(group.coils[0])];
  std::int64_t room = coil.length;
  std::vector<CutPart> parts;
  for (std::size_t p = 0; p < group.pieces.size(); ++p) {
    const PieceKind& piece = task.pieces[static_cast<std::size_t>(group.pieces[p])];
    room -= piece.length;
    if (room < 0 || (coil.serves >> piece.need & 1U) == 0) return std::nullopt;
    parts.push_back({0, static_cast<int>(p), piece.length});
  }
  return parts;
}

}  // namespace

std::optional<std::vector<CutPart>> lay_group(const CutTask& task, const CutGroup& group) {
  if (group.coils.size() == 1) return lay_along(task, group);
  return Laying(task, group).run();
}

}  // namespace teetally
