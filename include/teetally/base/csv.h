#pragma once
// CSV as RFC 4180 has it, cells parted by commas (read too: by semicolons, with decimal commas, or by tabs). The reader
// keeps the place of every cell; the writer makes cells safe for spreadsheets.
#include <string>
#include <string_view>
#include <vector>

#include "teetally/base/diagnostic.h"
#include "teetally/base/place.h"

namespace teetally {

struct CsvCell {
  std::string text;
  bool quoted = false;
  Place place;
};

struct CsvRow {
  std::vector<CsvCell> cells;
  Place place;
};

// Rows in file order, blank lines left out; line ends may be LF or CR LF. Bad quoting, bad UTF-8, control
// characters, and rows whose cell count differs from the first row's are diagnostics (base/bad-csv,
// base/bad-text); such rows are left out.
std::vector<CsvRow> read_csv(const Source& source, Diagnostics& diagnostics);

// One row with its line end (LF). A cell that a spreadsheet would take for a formula (it starts with = + - @,
// a tab or a carriage return, and is not a plain number) gets an apostrophe before it.
std::string csv_row(const std::vector<std::string>& cells);

}  // namespace teetally
