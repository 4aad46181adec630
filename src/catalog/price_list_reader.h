#pragma once
// A price list as CSV: a header with the columns sku and price, and name where there is one; others are skipped.
#include <map>
#include <string>
#include <vector>

#include "teetally/catalog/price_list.h"

namespace teetally {

struct ListRow {
  std::string sku, name;
  Money price;
  Place place;
};
std::vector<ListRow> read_price_list(const Source& list, const Currency& currency, Diagnostics& diagnostics);

}  // namespace teetally
