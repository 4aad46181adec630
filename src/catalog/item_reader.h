#pragma once
// One entry of `items:` becomes an Item with its packs. An item sold singly may state `price` instead of
// `packs`.
#include "catalog/reading.h"

namespace teetally {

Item read_item(const YamlNode& node, const Reading& reading);

// Reads `part: {kind: ..., attributes}`; a part that cannot be read has no kind.
PartSpec read_part_of(Fields& fields, const std::string& what, const Reading& reading);

}  // namespace teetally
