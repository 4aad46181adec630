#pragma once
// The vocabulary: which kinds of part there are, which attributes each has, how an attribute of a need and of
// an item are compared, which kinds are cut by length, and what ends a kind has. Shipped as
// src/base/vocabulary.yaml (built into the program); a user's file adds kinds and attributes to it.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "teetally/base/diagnostic.h"
#include "teetally/base/part.h"
#include "teetally/base/yaml.h"

namespace teetally {

enum class Match {
  equal,     // the item's value is the need's (one word in common, or the same number)
  at_least,  // the item's value is no less than the need's
  at_most,   // the item's value is no more than the need's
  within,    // one side's value lies inside the other side's range
  one_of,    // the item's and the need's words have one in common
};

struct AttributeType {
  std::string name;
  Dimension dimension = Dimension::word;
  Match match = Match::equal;
  std::string about;
  Place place;
};

struct KindType {
  std::string name;
  std::string plural;
  std::string about;
  bool by_length = false;         // bought in coils and cut
  bool open = false;              // accepts attributes it does not list, as words matched by equality
  std::vector<std::string> ends;  // tubing ends in order ("run", "run", "branch"); equal names interchange
  std::vector<AttributeType> attributes;
  Place place;
};

struct Vocabulary {
  std::vector<KindType> kinds;
  const KindType* find(std::string_view kind) const;
  std::vector<std::string> kind_names() const;
};

Vocabulary shipped_vocabulary();
// Adds the kinds of a user's vocabulary file; a kind that exists already may only gain attributes.
void extend_vocabulary(Vocabulary& vocabulary, const YamlNode& root, Diagnostics& diagnostics);

// Reads `kind` and every attribute of that kind from a mapping whose other keys the caller handles through
// the same Fields; an unknown kind or a wrong value is a diagnostic (base slugs) and answers nullopt.
std::optional<PartSpec> read_part(Fields& fields, const Vocabulary& vocabulary, const BareUnits& bare,
                                  Diagnostics& diagnostics);
// One attribute value from text: "1/2 in", "[a, b]" as a list node, "10 psi to 60 psi" as a range.
std::optional<AttributeValue> read_attribute(const YamlNode& node, const AttributeType& type, const BareUnits& bare,
                                             Diagnostics& diagnostics);

// Nothing when `item` serves `wanted`; otherwise why not ("size is 3/4 in, wanted 1/2 in").
std::optional<std::string> mismatch(const PartSpec& wanted, const PartSpec& item, const Vocabulary& vocabulary,
                                    UnitSystem units);

}  // namespace teetally
