#include <algorithm>

#include "catalog/catalog_checks.h"
#include "teetally/base/iso_date.h"

namespace teetally {

namespace {

constexpr std::size_t kLongestId = 40;

bool is_id(std::string_view id) {
  const auto allowed = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; };
  return !id.empty() && id.size() <= kLongestId && std::all_of(id.begin(), id.end(), allowed);
}

void check_id(const RawCatalog& raw, Diagnostics& diagnostics) {
  const std::string& id = raw.catalog.id;
  if (id == kOnHandId) {
    diagnostics.error("catalog/bad-id", raw.id_place, "the supplier id 'on-hand' is kept for parts on hand");
  } else if (raw.id_place.known() && !is_id(id)) {
    diagnostics
        .error("catalog/bad-id", raw.id_place,
               "a supplier id is 1 to 40 small letters, digits and hyphens, found " + quoted(printable(id)))
        .help = "write a short name such as 'fernhollow'; the full name goes to 'name'";
  }
}

void check_date(const std::optional<std::string>& date, const Place& place, Diagnostics& diagnostics) {
  if (!date || is_iso_date(*date)) return;
  diagnostics.error("catalog/bad-date", place, "not a date of the form 2026-03-31: " + quoted(printable(*date)));
}

}  // namespace

void check_identity(const RawCatalog& raw, Diagnostics& diagnostics) {
  check_id(raw, diagnostics);
  const auto& from = raw.catalog.valid_from;
  const auto& until = raw.catalog.valid_until;
  check_date(from, raw.from_place, diagnostics);
  check_date(until, raw.until_place, diagnostics);
  if (from && until && is_iso_date(*from) && is_iso_date(*until) && *until < *from) {
    diagnostics.error("catalog/validity-ends-first", raw.until_place,
                      "the catalog is valid until " + *until + ", before it begins on " + *from);
  }
  if (raw.has_items && raw.catalog.items.empty() && raw.bundles.empty()) {
    diagnostics.warning("catalog/nothing-for-sale", raw.id_place, "this catalog has no items");
  }
}

}  // namespace teetally
