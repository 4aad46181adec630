#pragma once
// The skus that bundles name become indices into the catalog's items; contents by part become items.
#include "catalog/catalog_reader.h"

namespace teetally {

// Unknown skus are diagnostics with the nearest known sku; contents that name them are left out.
void fill_bundles(RawCatalog& raw, Diagnostics& diagnostics);

}  // namespace teetally
