#pragma once
// Cutting, cut loose from purchases: which pieces come from which coils, in whole tenths of a millimetre. Pieces
// that may be joined can lie over the ends of several coils, one join at each end. A group is a set of coils
// laid end to end with pieces laid along them: b coils need b - 1 joins, and no way of joining them needs
// fewer, so coils joined together are one longer coil (item = run, bin = coil, split = join: Casazza & Ceselli,
// Computers & OR 46:1-11, 2014).
#include <cstdint>
#include <optional>
#include <vector>

namespace teetally {

// Coils of one length that serve the same needs.
struct CoilKind {
  std::int64_t length = 0;
  std::uint64_t serves = 1;  // a bit for each need
  std::int64_t count = 0;
};
// Pieces of one length, for one need.
struct PieceKind {
  std::int64_t length = 0;
  int need = 0;  // the bit
  bool may_join = false;
  std::int64_t count = 0;
};
struct CutTask {
  std::vector<CoilKind> coils;
  std::vector<PieceKind> pieces;  // longest first
  std::int64_t joins = 0;         // at most
  std::int64_t least_joined = 0;  // no part of a joined piece is shorter
};

// Coils (kinds, one entry a coil) and the pieces laid along them (kinds, one entry a piece).
struct CutGroup {
  std::vector<int> coils, pieces;
};

// Whatever coils are bought and however they are joined: sum of worth * coils + join * joins >= least.
struct CutBound {
  std::vector<std::int64_t> worth;  // by kind of coil
  std::int64_t join = 0, least = 0;
};

enum class Cuttable { yes, no, unknown };
struct CutAnswer {
  Cuttable cuttable = Cuttable::unknown;
  std::vector<CutGroup> groups;   // yes
  std::optional<CutBound> bound;  // no, where a bound shows it; else every way was tried
};
// Whether the pieces can be cut from the coils. "No" is shown in whole numbers, never by rounding: by a bound
// that is checked against every group, or by trying every group (up to `most_steps` of them).
// Without proving, what the relaxation calls impossible is "unknown", which is quicker.
enum class Proving { yes, no };
CutAnswer cut(const CutTask& task, std::int64_t most_steps, Proving proving = Proving::yes);

// One length of tubing cut from one coil.
struct CutPart {
  int coil = -1;   // index into the group's coils
  int piece = -1;  // index into the group's pieces
  std::int64_t length = 0;
};
// The group's cuts in order, coil by coil; nullopt when its pieces cannot be laid along its coils.
std::optional<std::vector<CutPart>> lay_group(const CutTask& task, const CutGroup& group);

// The dearest choice of pieces that fits into a length; pieces need not be limited by their count.
struct Filling {
  std::int64_t value = 0;            // of `counts`
  std::int64_t bound = 0;            // no filling is worth more
  std::vector<std::int64_t> counts;  // by kind of piece
};
Filling dearest_filling(const CutTask& task, const std::vector<std::int64_t>& worth, std::int64_t length,
                        std::uint64_t serves);
// No filling is worth more: closer than Filling::bound where a search for the dearest one ends early.
std::int64_t filling_bound(const CutTask& task, const std::vector<std::int64_t>& worth, std::int64_t length,
                           std::uint64_t serves);

// The linear relaxation over groups: answers how it would cut and a bound when that shows the task impossible.
struct Relaxation {
  bool possible = true;
  std::vector<CutGroup> groups;  // with how often each is used
  std::vector<double> times;
  std::optional<CutBound> bound;
};
Relaxation relax(const CutTask& task, Proving proving = Proving::yes);
// Sets of coils that may be joined, within the task's coils and joins: single coils first.
std::vector<std::vector<int>> coil_sets(const CutTask& task, std::size_t most_sets);

}  // namespace teetally
