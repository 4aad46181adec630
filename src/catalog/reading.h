#pragma once
// What every part of the catalog reader needs: the vocabulary, the file's currency and units, and where to
// put complaints. The limits, with those of the parsers (lengths up to 100 km, amounts up to kLargestAmount), keep
// all later arithmetic inside 64 bits: the dearest order of a run stays below
// 10^18 minor units.
#include "teetally/catalog.h"

namespace teetally {

inline constexpr std::int64_t kMostPieces = 1'000'000;   // in one pack, or of one content of a bundle
inline constexpr std::int64_t kMostPacks = 1'000'000;    // stock, multiple, minimum, from of a price break
inline constexpr Length kAnyLength = metres(1);          // stands for one that could not be read
inline constexpr Diameter kWidestTubing = {10'000'000};  // 1 m

struct Reading {
  const Vocabulary& vocabulary;
  Currency currency;
  BareUnits bare;
  Diagnostics& diagnostics;
};

// Whether the node is a mapping. If not, `what` ("the tax") is complained about with an example of it.
bool has_keys(const YamlNode& node, const std::string& what, const std::string& example, Diagnostics& diagnostics);

// Tubing is what is cut by length and has a nominal size: it needs diameters so that fittings can be chosen.
bool is_tubing(const KindType& kind);

}  // namespace teetally
