#pragma once
// The `ordering:` mapping of a catalog becomes OrderingTerms.
#include "catalog/reading.h"

namespace teetally {

OrderingTerms read_terms(const YamlNode& node, const Reading& reading);

}  // namespace teetally
