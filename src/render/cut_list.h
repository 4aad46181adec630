#pragma once
// Parts of the cut list that the order document holds as well. docs/json.md describes them.
#include "teetally/render.h"

namespace teetally {

Json cut_list_json(const OrderView& view, UnitSystem units);
Json joins_json(const OrderView& view);

}  // namespace teetally
