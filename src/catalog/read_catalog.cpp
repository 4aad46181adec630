#include "catalog/catalog_checks.h"
#include "catalog/catalog_reader.h"
#include "catalog/fill_bundles.h"

namespace teetally {

std::optional<Catalog> read_catalog(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  Diagnostics found;  // of this file alone: whether it may be used does not depend on other files
  auto raw = read_raw_catalog(source, vocabulary, found);
  if (raw) {
    check_identity(*raw, found);
    check_terms(raw->catalog.terms, found);
    if (!raw->has_items) raw->bundles.clear();  // else every sku in them would be called unknown
    fill_bundles(*raw, found);
    check_skus(raw->catalog, found);
    check_items(raw->catalog, vocabulary, false, found);
    check_bundles(raw->catalog, vocabulary, found);
  }
  for (Diagnostic& entry : found.in_order()) diagnostics.add(std::move(entry));
  if (!raw || found.has_errors()) return std::nullopt;
  return std::move(raw->catalog);
}

}  // namespace teetally
