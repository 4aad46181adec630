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

// A revision is written once. Lists of one kind (parts, sections, payments, ...) share a table.
const char* const kQuotes = R"(
CREATE TABLE quote (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  currency TEXT NOT NULL
) STRICT;
CREATE TABLE revision (
  quote INTEGER NOT NULL REFERENCES quote (number),
  revision INTEGER NOT NULL CHECK (revision >= 1),
  name TEXT NOT NULL,
  business TEXT NOT NULL,
  customer TEXT NOT NULL,
  site TEXT NOT NULL,
  scope TEXT NOT NULL,
  made_on TEXT NOT NULL,
  valid_until TEXT,
  price INTEGER NOT NULL,
  tax_words TEXT NOT NULL,
  tax INTEGER NOT NULL,
  total INTEGER NOT NULL,
  materials INTEGER NOT NULL,
  labour INTEGER NOT NULL,
  equipment INTEGER NOT NULL,
  delivery INTEGER NOT NULL,
  overhead INTEGER NOT NULL,
  contingency INTEGER NOT NULL,
  profit INTEGER NOT NULL,
  profit_words TEXT NOT NULL,
  taxable INTEGER NOT NULL,
  PRIMARY KEY (quote, revision)
) STRICT, WITHOUT ROWID;
CREATE TABLE revision_line (
  quote INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  list TEXT NOT NULL CHECK (list IN ('part', 'section', 'payment', 'exclusion', 'caution', 'note')),
  position INTEGER NOT NULL,
  what TEXT NOT NULL,
  words TEXT NOT NULL,
  amount INTEGER NOT NULL,
  PRIMARY KEY (quote, revision, list, position),
  FOREIGN KEY (quote, revision) REFERENCES revision (quote, revision)
) STRICT, WITHOUT ROWID;
CREATE TABLE cost_line (
  quote INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  position INTEGER NOT NULL,
  part INTEGER NOT NULL CHECK (part BETWEEN 0 AND 5),
  supplier TEXT NOT NULL,
  sku TEXT NOT NULL,
  what TEXT NOT NULL,
  count INTEGER NOT NULL,
  price INTEGER,
  cost INTEGER NOT NULL,
  PRIMARY KEY (quote, revision, position),
  FOREIGN KEY (quote, revision) REFERENCES revision (quote, revision)
) STRICT, WITHOUT ROWID;
CREATE TABLE supplier_order (
  id INTEGER PRIMARY KEY,
  quote INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  supplier TEXT NOT NULL,
  name TEXT NOT NULL,
  goods INTEGER NOT NULL,
  discount INTEGER NOT NULL,
  shipping INTEGER NOT NULL,
  small_order_fee INTEGER NOT NULL,
  tax INTEGER NOT NULL,
  total INTEGER NOT NULL,
  UNIQUE (quote, revision, supplier),
  FOREIGN KEY (quote, revision) REFERENCES revision (quote, revision)
) STRICT;
CREATE TABLE order_line (
  id INTEGER PRIMARY KEY,
  supplier_order INTEGER NOT NULL REFERENCES supplier_order (id),
  sku TEXT NOT NULL,
  what TEXT NOT NULL,
  bundle INTEGER NOT NULL CHECK (bundle IN (0, 1)),
  pieces INTEGER NOT NULL,
  length INTEGER NOT NULL,
  count INTEGER NOT NULL,
  goods INTEGER NOT NULL
) STRICT;
CREATE INDEX order_line_by_order ON order_line (supplier_order, id);
CREATE TABLE order_change (
  id INTEGER PRIMARY KEY,
  order_line INTEGER NOT NULL REFERENCES order_line (id),
  content TEXT NOT NULL,
  swap TEXT NOT NULL,
  times INTEGER NOT NULL
) STRICT;
CREATE INDEX order_change_by_line ON order_change (order_line, id);
CREATE TABLE settlement (
  quote INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('accepted', 'withdrawn')),
  day TEXT NOT NULL,
  PRIMARY KEY (quote, revision),
  FOREIGN KEY (quote, revision) REFERENCES revision (quote, revision)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER revision_no_update BEFORE UPDATE ON revision
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER revision_no_delete BEFORE DELETE ON revision
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER revision_line_no_update BEFORE UPDATE ON revision_line
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER revision_line_no_delete BEFORE DELETE ON revision_line
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER cost_line_no_update BEFORE UPDATE ON cost_line
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER cost_line_no_delete BEFORE DELETE ON cost_line
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER supplier_order_no_update BEFORE UPDATE ON supplier_order
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER supplier_order_no_delete BEFORE DELETE ON supplier_order
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER order_line_no_update BEFORE UPDATE ON order_line
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER order_line_no_delete BEFORE DELETE ON order_line
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER settlement_no_update BEFORE UPDATE ON settlement
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER settlement_no_delete BEFORE DELETE ON settlement
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
)";

// Large catalogs as they were read; any of these rows may be thrown away.
const char* const kReadings = R"(
CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  file TEXT NOT NULL,                 -- SHA-256 of the catalog file
  mark TEXT NOT NULL,                 -- by which program, with which vocabulary
  hash TEXT NOT NULL,                 -- SHA-256 of the bytes
  bytes BLOB NOT NULL,
  UNIQUE (file, mark)
) STRICT;
)";

// What is on hand is the sum of what came and went.
const char* const kStock = R"(
CREATE TABLE stock_part (
  id INTEGER PRIMARY KEY,
  part TEXT NOT NULL,                 -- kind, attributes, diameters and grips, as JSON
  length INTEGER NOT NULL,            -- of one piece of tubing; else 0
  sku TEXT NOT NULL,
  name TEXT NOT NULL,
  UNIQUE (part, length)
) STRICT;
CREATE TABLE stock_move (
  id INTEGER PRIMARY KEY,
  part INTEGER NOT NULL REFERENCES stock_part (id),
  day TEXT NOT NULL,
  change INTEGER NOT NULL,
  move TEXT NOT NULL CHECK (move IN ('received', 'used', 'counted', 'adjusted')),
  why TEXT NOT NULL
) STRICT;
CREATE INDEX stock_move_by_part ON stock_move (part);
CREATE TABLE stock_order (
  name TEXT NOT NULL,
  day TEXT NOT NULL,
  PRIMARY KEY (name, day)
) STRICT, WITHOUT ROWID;
)";

// What members of a pool owe and paid, as entries that are only added.
const char* const kLedger = R"(
CREATE TABLE ledger_round (
  id INTEGER PRIMARY KEY,
  pool TEXT NOT NULL,
  name TEXT NOT NULL,
  currency TEXT NOT NULL,
  UNIQUE (pool, name)
) STRICT;
CREATE TABLE ledger_account (
  id INTEGER PRIMARY KEY,
  round INTEGER NOT NULL REFERENCES ledger_round (id),
  member TEXT NOT NULL,
  UNIQUE (round, member)
) STRICT;
CREATE TABLE ledger_entry (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  account INTEGER NOT NULL REFERENCES ledger_account (id),
  day TEXT NOT NULL,
  kind TEXT NOT NULL CHECK (kind IN ('due', 'paid', 'refunded')),
  amount INTEGER NOT NULL,
  why TEXT NOT NULL,
  cancels INTEGER UNIQUE REFERENCES ledger_entry (id)
) STRICT;
CREATE INDEX ledger_entry_by_account ON ledger_entry (account, id);
CREATE TRIGGER ledger_round_no_update BEFORE UPDATE ON ledger_round
BEGIN SELECT RAISE(ABORT, 'what was booked stands'); END;
CREATE TRIGGER ledger_round_no_delete BEFORE DELETE ON ledger_round
BEGIN SELECT RAISE(ABORT, 'what was booked stands'); END;
CREATE TRIGGER ledger_account_no_update BEFORE UPDATE ON ledger_account
BEGIN SELECT RAISE(ABORT, 'what was booked stands'); END;
CREATE TRIGGER ledger_account_no_delete BEFORE DELETE ON ledger_account
BEGIN SELECT RAISE(ABORT, 'what was booked stands'); END;
CREATE TRIGGER ledger_entry_no_update BEFORE UPDATE ON ledger_entry
BEGIN SELECT RAISE(ABORT, 'what was booked stands'); END;
CREATE TRIGGER ledger_entry_no_delete BEFORE DELETE ON ledger_entry
BEGIN SELECT RAISE(ABORT, 'what was booked stands'); END;
)";

// What the options of a quote came to.
const char* const kOptions = R"(
CREATE TABLE quoted_option (
  quote INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  position INTEGER NOT NULL,
  name TEXT NOT NULL,
  differs TEXT NOT NULL,
  price INTEGER NOT NULL,
  tax INTEGER NOT NULL,
  total INTEGER NOT NULL,
  cost INTEGER NOT NULL,
  profit INTEGER NOT NULL,
  margin INTEGER NOT NULL,            -- millionths
  PRIMARY KEY (quote, revision, position),
  FOREIGN KEY (quote, revision) REFERENCES revision (quote, revision)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER quoted_option_no_update BEFORE UPDATE ON quoted_option
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
CREATE TRIGGER quoted_option_no_delete BEFORE DELETE ON quoted_option
BEGIN SELECT RAISE(ABORT, 'what was quoted stands'); END;
)";

}  // namespace

const std::vector<std::string>& store_steps() {
  static const std::vector<std::string> kSteps = {kPrices, kQuotes, kReadings, kStock, kLedger, kOptions};
  return kSteps;
}

}  // namespace teetally
