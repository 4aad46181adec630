#pragma once
// A supplier's price list (CSV, sku and price) brings a catalog file up to date. Only the prices change: comments,
// order, and everything else in the file stay as they are.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/catalog.h"

namespace teetally {

// A sku of the catalog that the list prices anew, of the list alone, or of the catalog alone.
struct ListedPrice {
  std::string sku, name;
  std::optional<Money> before, after;
};
struct PriceListReport {
  std::string supplier, name;  // id and full name
  Currency currency;
  std::vector<ListedPrice> dearer, cheaper;  // as in the catalog
  std::vector<ListedPrice> fresh;            // as in the list: in no item yet, nothing is added
  std::vector<ListedPrice> gone;             // as in the catalog: not in the list, nothing is removed
  std::int64_t same = 0;
};
struct PricedCatalog {
  std::string text;  // the catalog file with the new prices
  PriceListReport report;
};
// The catalog must be sound before and after; with any error there is no answer. Price breaks stay as they are, with
// the warning catalog/breaks-stay.
std::optional<PricedCatalog> take_prices(const Source& catalog, const Source& list, const Vocabulary& vocabulary,
                                         Diagnostics& diagnostics);

}  // namespace teetally
