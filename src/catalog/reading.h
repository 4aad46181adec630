#pragma once
// What every part of the catalog reader needs: the vocabulary, the file's currency and units, and where to
// put complaints. The limits, with those of the parsers (lengths up to 100 km, amounts up to kLargestAmount), keep
// all later arithmetic inside 64 bits: the dearest order of a run stays below
// 10^18 minor units.
#include <set>
#include <utility>

#include "teetally/catalog.h"

namespace teetally {

inline constexpr std::int64_t kMostPieces = 1'000'000;   // in one pack, or of one content of a bundle
inline constexpr std::int64_t kMostPacks = 1'000'000;    // stock, multiple, minimum, from of a price break
inline constexpr Length kAnyLength = metres(1);          // stands for one that could not be read
inline constexpr Diameter kWidestTubing = {10'000'000};  // 1 m

// Where items, bundles and contents start that could not be read whole. They have been complained about, and no
// check judges them.
class Unsound {
 public:
  void add(const Place& place) { starts_.emplace(place.line, place.column); }
  bool has(const Place& place) const { return starts_.count({place.line, place.column}) != 0; }

 private:
  std::set<std::pair<int, int>> starts_;
};

struct Reading {
  const Vocabulary& vocabulary;
  Currency currency;
  BareUnits bare;
  Diagnostics& diagnostics;
};

// Tubing is what is cut by length and has a nominal size: it needs diameters so that fittings can be chosen.
bool is_tubing(const KindType& kind);

}  // namespace teetally
