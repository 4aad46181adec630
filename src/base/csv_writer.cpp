#include "base/decimal.h"
#include "teetally/base/csv.h"
#include "teetally/base/text.h"

namespace teetally {
namespace {

// "-12.50" is a number wherever it is opened; "-2+3" is not.
bool is_plain_number(std::string_view text) {
  if (!text.empty() && (text[0] == '-' || text[0] == '+')) text.remove_prefix(1);
  bool digits = false;
  bool point = false;
  for (const char c : text) {
    if (c == '.' && !point) {
      point = true;
    } else if (is_digit(c)) {
      digits = true;
    } else {
      return false;
    }
  }
  return digits;
}

bool looks_like_formula(std::string_view text) {
  constexpr std::string_view kStarts = "=+-@\t\r";
  return !text.empty() && kStarts.find(text[0]) != std::string_view::npos && !is_plain_number(text);
}

std::string cell_text(const std::string& cell) {
  std::string out = looks_like_formula(cell) ? "'" + cell : cell;
  const bool edge_space = !out.empty() && (out.front() == ' ' || out.back() == ' ');
  if (out.find_first_of(",\"\r\n") == std::string::npos && !edge_space) return out;
  std::string inside;
  for (const char c : out) {
    inside += c;
    if (c == '"') inside += '"';
  }
  return "\"" + inside + "\"";
}

}  // namespace

std::string csv_row(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) out += ',';
    out += cell_text(cells[i]);
  }
  // A lone empty cell would be a blank line, which readers skip.
  if (cells.size() == 1 && out.empty()) out = "\"\"";
  return out + "\n";
}

}  // namespace teetally
