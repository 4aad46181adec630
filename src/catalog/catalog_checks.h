#pragma once
// Everything that can be wrong in a catalog whose values could be read. Checks only add diagnostics: errors
// for what would make an order wrong, warnings for what is likely a slip.
#include "catalog/catalog_reader.h"

namespace teetally {

void check_identity(const RawCatalog& raw, Diagnostics& diagnostics);  // id and validity
void check_terms(const OrderingTerms& terms, Diagnostics& diagnostics);
// `free_goods`: prices of zero are as they should be (parts on hand).
void check_items(const Catalog& catalog, const Unsound& unsound, const Vocabulary& vocabulary, bool free_goods,
                 Diagnostics& diagnostics);
void check_bundles(const Catalog& catalog, const Unsound& unsound, const Vocabulary& vocabulary,
                   Diagnostics& diagnostics);
void check_skus(const Catalog& catalog, Diagnostics& diagnostics);  // each names one thing

}  // namespace teetally
