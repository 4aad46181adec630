#pragma once
// Checks of a whole text before any reader looks at it.
#include <vector>

#include "teetally/base/diagnostic.h"
#include "teetally/base/place.h"

namespace teetally {

// True when the text is UTF-8 without control characters other than tabs and line ends (LF or CR LF); else a
// base/bad-text diagnostic at the first offender.
bool is_clean_text(const Source& source, Diagnostics& diagnostics);

// Where each line starts, for turning byte positions into places. It remembers the place it gave last: readers
// ask from left to right, and a file may be one long line. One index serves one thread.
class LineIndex {
 public:
  explicit LineIndex(const Source& source);
  // The place of a byte offset; offsets past the end mean the end.
  Place place_at(std::size_t offset) const;
  // The place of a byte column (from 0) on a line (from 0), as the YAML library counts.
  Place place_of(int line, int byte_column) const;
  // The byte offset of the same; the end of the text when it lies past it.
  std::size_t offset_of(int line, int byte_column) const;

 private:
  Source source_;
  std::vector<std::size_t> starts_;
  struct Counted {
    std::size_t line = 0, bytes = 0;
    int characters = 0;
  };
  mutable Counted last_;
};

}  // namespace teetally
