#include "catalog/catalog_checks.h"
#include "catalog/on_hand_reader.h"

namespace teetally {

std::optional<Catalog> read_on_hand(const Source& source, const Vocabulary& vocabulary, const Currency& currency,
                                    Diagnostics& diagnostics) {
  Diagnostics found;
  auto raw = read_raw_on_hand(source, vocabulary, currency, found);
  if (raw) {
    check_skus(raw->catalog, found);
    check_items(raw->catalog, raw->unsound, vocabulary, true, found);
  }
  for (Diagnostic& entry : found.in_order()) diagnostics.add(std::move(entry));
  if (!raw || found.has_errors()) return std::nullopt;
  return std::move(raw->catalog);
}

}  // namespace teetally
