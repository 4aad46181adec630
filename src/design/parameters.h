#pragma once
// Parameters: `set:` declares names with defaults, `${name}` in any scalar is replaced by the value, the command
// line may override a default. `${n}`, the number of a copy, is left for the copies of `repeat`.
#include <map>
#include <string>

#include "teetally/base.h"

namespace teetally::design {

// Unknown names, on the command line or in a scalar, are errors; declared and never used is a warning.
void fill_in_parameters(YamlNode& root, const std::map<std::string, std::string>& set, Diagnostics& diagnostics);

// Replaces `${n}` in every scalar below `node`.
void fill_in_number(YamlNode& node, std::int64_t n);

}  // namespace teetally::design
