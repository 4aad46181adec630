#pragma once
// Plain text that fits a terminal: words wrapped to a width, and tables whose growing column wraps. Widths are
// terminal columns (wide characters count two). Texts given here are printed as they are: callers make text
// from files safe first (printable).
#include <string>
#include <string_view>
#include <vector>

namespace teetally {

inline constexpr int kNarrowest = 40;  // narrower terminals get lines of this width

// Words of `text` in lines of at most `width` columns, the first indented by `first`, the others by `rest`;
// a longer word stands alone. Ends with a newline; empty text answers nothing.
std::string wrapped(std::string_view text, int width, int first = 0, int rest = 0);
// The lines of it without indent or newline.
std::vector<std::string> wrapped_lines(std::string_view text, int width);

struct Column {
  std::string title;
  enum class Side { left, right } side = Side::left;
  bool grows = false;  // takes what room is left and wraps; one per table
};
using Row = std::vector<std::string>;

struct TextTable {
  std::vector<Column> columns;
  std::vector<Row> rows;  // a row may be shorter than the columns; an empty row is a blank line
};
// Header and rows, each line indented, columns two spaces apart, no trailing spaces. Columns that are empty in
// every row are left out.
std::string laid_out(const TextTable& table, int width, int indent);

}  // namespace teetally
