#pragma once
// Catalogs of a run as read_catalogs gives them, each file read by a reader of one's own, which may know a quicker
// way to the same Catalog.
#include <functional>

#include "teetally/catalog.h"

namespace teetally {

// The files that paths stand for: those given, and of folders what ends in .yaml or .yml (not below), by name; each
// once.
std::vector<std::string> catalog_files(const std::vector<std::string>& paths, Diagnostics& diagnostics);

using CatalogReader = std::function<std::optional<Catalog>(const Source&, Diagnostics&)>;
std::vector<Catalog> read_catalogs_with(const CatalogReader& reader, const std::vector<std::string>& paths,
                                        const std::string& today, Diagnostics& diagnostics);

}  // namespace teetally
