#pragma once
// An on-hand file becomes a RawCatalog: each part in the shed is an item sold at no charge, as many as there are.
#include "catalog/catalog_reader.h"

namespace teetally {

std::optional<RawCatalog> read_raw_on_hand(const Source& source, const Vocabulary& vocabulary, const Currency& currency,
                                           Diagnostics& diagnostics);

}  // namespace teetally
