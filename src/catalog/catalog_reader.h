#pragma once
// A catalog file's text becomes a RawCatalog: every value with its place, types checked, nothing judged.
#include "catalog/bundle_reader.h"
#include "catalog/reading.h"

namespace teetally {

struct RawCatalog {
  Catalog catalog;  // bundles not yet filled in
  std::vector<RawBundle> bundles;
  Place id_place, from_place, until_place;
  bool has_items = true;  // the list is there, be it empty
};

// Nothing when the file is not a catalog at all (the diagnostics say why).
std::optional<RawCatalog> read_raw_catalog(const Source& source, const Vocabulary& vocabulary,
                                           Diagnostics& diagnostics);
}  // namespace teetally
