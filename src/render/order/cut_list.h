#pragma once
// Parts of the cut list that several forms of it share. docs/json.md describes the JSON.
#include <string>

#include "teetally/render.h"

namespace teetally {

struct CoilWords {
  std::string supplier, sku, what;  // of the site's own tubing: no supplier and sku
};
CoilWords words_of(const OrderView& view, const CutCoil& coil);
std::string place_words(const OrderView& view, const CoilCut& cut);
std::string cut_list_summary(const OrderView& view);
std::string left_words(const CutCoil& coil);  // "left: keep as a spare"

Json cut_list_json(const OrderView& view, UnitSystem units);
Json joins_json(const OrderView& view);

}  // namespace teetally
