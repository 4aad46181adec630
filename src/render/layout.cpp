#include "teetally/render/layout.h"

#include <algorithm>

#include "teetally/base/words.h"

namespace teetally {
namespace {

constexpr int kGap = 2;
constexpr int kLeastGrowing = 12;

std::string padded(const std::string& text, int width, Column::Side side) {
  const int missing = std::max(0, width - display_width(text));
  const std::string blanks(static_cast<std::size_t>(missing), ' ');
  return side == Column::Side::right ? blanks + text : text + blanks;
}

const std::string& cell(const Row& row, std::size_t column) {
  static const std::string kNothing;
  return column < row.size() ? row[column] : kNothing;
}

std::vector<std::size_t> used_columns(const TextTable& table) {
  std::vector<std::size_t> used;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const bool any =
        std::any_of(table.rows.begin(), table.rows.end(), [c](const Row& row) { return !cell(row, c).empty(); });
    if (any) used.push_back(c);
  }
  return used;
}

int natural_width(const TextTable& table, std::size_t column) {
  int width = display_width(table.columns[column].title);
  for (const Row& row : table.rows) width = std::max(width, display_width(cell(row, column)));
  return width;
}

// Widths by used column: natural ones, but the growing column gets only the room that is left.
std::vector<int> column_widths(const TextTable& table, const std::vector<std::size_t>& used, int room) {
  std::vector<int> widths;
  int fixed = kGap * (static_cast<int>(used.size()) - 1);
  for (const std::size_t c : used) {
    widths.push_back(natural_width(table, c));
    if (!table.columns[c].grows) fixed += widths.back();
  }
  for (std::size_t i = 0; i < used.size(); ++i) {
    if (table.columns[used[i]].grows) widths[i] = std::min(widths[i], std::max(kLeastGrowing, room - fixed));
  }
  return widths;
}

void append_line(std::string& out, std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  out += line;
  out += '\n';
}

void append_row(std::string& out, const TextTable& table, const std::vector<std::size_t>& used,
                const std::vector<int>& widths, const Row& row, int indent) {
  std::vector<std::vector<std::string>> cells;
  std::size_t height = 1;
  for (std::size_t i = 0; i < used.size(); ++i) {
    const std::string& text = cell(row, used[i]);
    cells.push_back(table.columns[used[i]].grows ? wrapped_lines(text, widths[i]) : std::vector<std::string>{text});
    height = std::max(height, cells.back().size());
  }
  for (std::size_t y = 0; y < height; ++y) {
    std::string line(static_cast<std::size_t>(indent), ' ');
    for (std::size_t i = 0; i < used.size(); ++i) {
      if (i > 0) line.append(kGap, ' ');
      line += padded(y < cells[i].size() ? cells[i][y] : "", widths[i], table.columns[used[i]].side);
    }
    append_line(out, std::move(line));
  }
}

}  // namespace

std::vector<std::string> wrapped_lines(std::string_view text, int width) {
  std::vector<std::string> lines;
  std::string line;
  int line_width = 0;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    const int word_width = display_width(word);
    if (!line.empty() && line_width + 1 + word_width > width) {
      lines.push_back(std::move(line));
      line.clear();
      line_width = 0;
    }
    if (!line.empty()) {
      line += ' ';
      ++line_width;
    }
    line += word;
    line_width += word_width;
  }
  if (!line.empty()) lines.push_back(std::move(line));
  return lines;
}

std::string wrapped(std::string_view text, int width, int first, int rest) {
  // The first line is wrapped with its indent as a word of blanks would be: by narrowing to the larger indent.
  std::string out;
  int indent = first;
  for (const std::string& line : wrapped_lines(text, std::max(kLeastGrowing, width - std::max(first, rest)))) {
    append_line(out, std::string(static_cast<std::size_t>(indent), ' ') + line);
    indent = rest;
  }
  return out;
}

std::string laid_out(const TextTable& table, int width, int indent) {
  const std::vector<std::size_t> used = used_columns(table);
  if (used.empty()) return {};
  const std::vector<int> widths = column_widths(table, used, std::max(kNarrowest, width) - indent);
  Row titles;
  for (const Column& column : table.columns) titles.push_back(column.title);
  std::string out;
  if (std::any_of(titles.begin(), titles.end(), [](const std::string& t) { return !t.empty(); })) {
    append_row(out, table, used, widths, titles, indent);
  }
  for (const Row& row : table.rows) append_row(out, table, used, widths, row, indent);
  return out;
}

}  // namespace teetally
