#include "store/versions.h"

#include <cstdint>

namespace teetally {
namespace {

// Amounts are whole minor units, lengths tenths of a millimetre, days ISO dates.
const char* const kPrices = R"(
CREATE TABLE snapshot (
  id INTEGER PRIMARY KEY,
  hash TEXT NOT NULL UNIQUE,          -- SHA-256 of the file
  supplier TEXT NOT NULL,
  name TEXT NOT NULL,
  currency TEXT NOT NULL,
  file TEXT NOT NULL                  -- the catalog file itself
) STRICT;
CREATE TABLE recording (
  id INTEGER PRIMARY KEY,
  snapshot INTEGER NOT NULL REFERENCES snapshot (id),
  supplier TEXT NOT NULL,
  first_day TEXT NOT NULL,
  last_day TEXT NOT NULL CHECK (last_day >= first_day)
) STRICT;
CREATE INDEX recording_by_supplier ON recording (supplier, first_day, id);
CREATE TABLE price (
  snapshot INTEGER NOT NULL REFERENCES snapshot (id),
  position INTEGER NOT NULL,          -- as in the file
  sku TEXT NOT NULL,
  name TEXT NOT NULL,
  bundle INTEGER NOT NULL CHECK (bundle IN (0, 1)),
  pieces INTEGER NOT NULL,
  length INTEGER NOT NULL,
  from_packs INTEGER NOT NULL,
  amount INTEGER NOT NULL,
  PRIMARY KEY (snapshot, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX price_by_sku ON price (sku, snapshot);
)";

}  // namespace

const std::vector<std::string>& store_steps() {
  static const std::vector<std::string> kSteps = {kPrices};
  return kSteps;
}

}  // namespace teetally
