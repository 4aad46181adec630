#pragma once
// Catalogs of a run as read_catalogs gives them, each file read by a reader of one's own, which may know a quicker
// way to the same Catalog.
#include <functional>

#include "teetally/catalog.h"

namespace teetally {

using CatalogReader = std::function<std::optional<Catalog>(const Source&, Diagnostics&)>;
std::vector<Catalog> read_catalogs_with(const CatalogReader& reader, const std::vector<std::string>& paths,
                                        const std::string& today, Diagnostics& diagnostics);

}  // namespace teetally
