#pragma once
// Lists of elements with `like:` and `repeat:` laid out: each element that is a copy stands alone, with its own
// name and its own shift from where the first one stands.
#include <initializer_list>
#include <vector>

#include "teetally/design.h"

namespace teetally::design {

struct Copy {
  YamlNode node;  // without `like` and `repeat`, `${n}` filled in, name as in `name`
  std::string name;
  std::string family;  // the name before numbering
  Point shift;         // of every position
  Length along;        // to add to every "... along ..." anchor
};

// Keys of which an element may hold one only: one that is stated keeps the others from being taken by `like`.
using Alternatives = std::vector<std::vector<std::string>>;

struct CopyRules {
  std::string kind;              // "bed"
  std::vector<std::string> own;  // keys never taken by `like`: positions
  Alternatives alternatives;
};

// `list` holds the items of `key:`. Unknown or circular `like`s are diagnostics.
std::vector<Copy> lay_out_copies(const std::vector<const YamlNode*>& list, const CopyRules& rules,
                                 const BareUnits& bare, Diagnostics& diagnostics);

// Moves the positions of a copy.
Point shifted(Point at, Point by);
void shift_anchor(Anchor& anchor, const Copy& copy);

}  // namespace teetally::design
