#pragma once
// Large catalogs as they were read, so that the next run need not read them again. An entry is found by the hash of
// the file and by how it was read; it may be thrown away at any time, for the file is the truth.
#include <optional>
#include <string>

#include "teetally/catalog.h"
#include "teetally/store.h"

namespace teetally {

// Smaller files are read faster than it takes to look for them. Bytes; some 4,000 offers.
inline constexpr std::size_t kLargeCatalog = 512u << 10;
// So many are remembered; the one kept longest ago makes room.
inline constexpr int kMostRemembered = 8;

// Tells readings apart that may differ for one file: those of other programs or with another vocabulary.
std::string reading_mark(const std::string& program, const Vocabulary& vocabulary);

// The Catalog that reading the source would give, places and all, or nothing.
std::optional<Catalog> remembered_catalog(const Store& store, const Source& source, const std::string& mark);
// For catalogs that were read without a message.
void remember_catalog(Store& store, const Catalog& catalog, const std::string& mark);

}  // namespace teetally
