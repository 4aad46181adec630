#pragma once
// What a file is written in, so that it is answered in its own units.
#include "teetally/base/quantity.h"
#include "teetally/base/yaml.h"

namespace teetally {

// By the file's `units`: the length decides, without one whatever is metric. Where it declares none, by the units that
// stand behind its numbers most often; names of sizes and threads do not count, and where nothing tells it is US units.
UnitSystem units_written(const YamlNode& root);

}  // namespace teetally
