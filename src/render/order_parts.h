#pragma once
// One line of an order in words and figures, the same for text, JSON and CSV.
#include <optional>
#include <string>
#include <vector>

#include "teetally/render.h"

namespace teetally {

const Catalog& catalog_at(const OfferBook& book, int catalog);
const Currency& currency_of(const OfferBook& book);  // the one of all catalogs of a run

struct LineParts {
  std::string sku;
  std::string what;                  // "1/2 in supply tubing, 100 ft"
  std::optional<Money> price;        // of one pack where all packs of the line cost the same
  std::vector<std::string> changes;  // of bundles: "2 x without 4 FH-TEE"
};
LineParts parts_of(const Catalog& catalog, const OrderLine& line, UnitSystem units);

std::string pack_words(const Pack& pack, UnitSystem units);  // "100 ft", "pack of 10"; nothing for single pieces
bool is_cut(const Catalog& catalog, int item);               // sold by length, in coils

}  // namespace teetally
