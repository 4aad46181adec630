#pragma once
// Catalogs as they were on a day, kept by the hash of their files, and what each sku cost from when to when.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/catalog.h"
#include "teetally/store.h"

namespace teetally {

// What recording one catalog did.
struct Recording {
  std::string supplier, name;         // id and full name
  std::int64_t prices = 0;            // kept of it
  std::string since;                  // the day from which the supplier's prices are these
  bool changed = false;               // they are not those of the last recording
  std::optional<std::string> before;  // the day of the one before, when they changed
};
// All of the catalogs or none of them. `day` may lie before days recorded earlier.
std::vector<Recording> record_catalogs(Store& store, const std::vector<Catalog>& catalogs, const std::string& day);

// One price of a sku from `first_day` to `last_day`, the last day it was seen; none: the supplier did not list it.
struct PricePeriod {
  std::string first_day, last_day;
  std::optional<Money> price;
};
// One way a sku was sold by one supplier: a pack, a step of its price, or a bundle.
struct PriceHistory {
  std::string supplier, supplier_name, sku, name;
  Currency currency;
  std::int64_t pieces = 1;  // in a pack
  Length length{};          // of a coil; zero where sold by the piece
  bool bundle = false;
  std::int64_t from = 1;  // packs from which this price holds
  std::vector<PricePeriod> periods;
};
// By supplier, then as in the latest catalog; a sku that was never recorded is the error store/unknown-sku.
std::vector<PriceHistory> price_history(const Store& store, const std::string& sku, Diagnostics& diagnostics);

}  // namespace teetally
