#pragma once
// A parts list as its author wrote it: parts with counts or lengths, each with its place. What it means as
// needs and tubing systems is decided afterwards (as_takeoff).
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/needs.h"

namespace teetally {

struct ListedPart {
  PartSpec part;
  bool may_join = false;   // lengths: at the cost of a coupling for each join
  std::int64_t count = 1;  // pieces; for kinds cut by length, pieces of `length` each
  Length length;           // kinds cut by length only
  bool is_total = false;   // a length without a count: cut and joined as the buyer likes
  std::string purpose;     // "for: greenhouse"; may be empty
  std::string system;      // which connected system it belongs to; empty: the list's only one
  Place place;
};

struct PartsList {
  std::string name;
  bool connected = true;  // parts whose tubing ends share a nominal size must fit one another
  std::vector<ListedPart> parts;
};

// Reads either form from its tree; nullopt when anything was wrong (`diagnostics` holds this list's entries
// only and says what).
std::optional<PartsList> read_parts(const YamlNode& root, const Vocabulary& vocabulary, Diagnostics& diagnostics);

Takeoff as_takeoff(const PartsList& list, const Vocabulary& vocabulary, Diagnostics& diagnostics);

}  // namespace teetally
