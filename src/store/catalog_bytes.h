#pragma once
// A Catalog as bytes and back, to the last place. The form may change with any version of the program: kCatalogForm
// says which it is. Bytes that are not whole give nothing.
#include <optional>
#include <string>
#include <string_view>

#include "teetally/catalog.h"

namespace teetally {

// To be raised with any change of Catalog or of how catalogs are read.
inline constexpr int kCatalogForm = 1;

std::string to_bytes(const Catalog& catalog);
std::optional<Catalog> catalog_from_bytes(std::string_view bytes, const Source& source);

}  // namespace teetally
