#pragma once
// What a part is, as text that stays readable for later versions of the program, equal for equal parts.
#include <optional>
#include <string>

#include "teetally/catalog.h"

namespace teetally {

// Part, diameters and grips of an item, but no sku, name or packs.
std::string part_text(const Item& item);
std::optional<Item> part_from_text(const std::string& text);

}  // namespace teetally
