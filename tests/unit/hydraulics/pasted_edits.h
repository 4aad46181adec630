#pragma once
// Puts the edits of an advice into the text of a design, as a person would: a key takes the place of the same key of
// its element, or is added to it. Designs whose elements are written in block style, one key a line.
#include <string>
#include <vector>

#include "teetally/hydraulics.h"

namespace pasted {

using Lines = std::vector<std::string>;

inline Lines lines_of(const std::string& text) {
  Lines lines;
  std::size_t start = 0;
  while (start < text.size()) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    lines.push_back(text.substr(start, end - start));
    start = end + 1;
  }
  return lines;
}

inline std::string text_of(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

// Where the line's own key starts: behind the spaces and the dash of a list item.
inline std::size_t key_column(const std::string& line) { return line.find_first_not_of(" -"); }

inline bool starts_with(const std::string& text, std::size_t at, const std::string& start) {
  return at != std::string::npos && text.compare(at, start.size(), start) == 0;
}

// Lines [first, last) of the element whose first key stands in line `first` at column `column`.
inline std::size_t end_of_block(const Lines& lines, std::size_t first, std::size_t column) {
  std::size_t last = first + 1;
  while (last < lines.size() && (lines[last].empty() || lines[last].find_first_not_of(' ') >= column)) ++last;
  return last;
}

inline Lines indented(const std::string& text, std::size_t column) {
  Lines lines = lines_of(text);
  for (std::string& line : lines) line.insert(0, column, ' ');
  return lines;
}

inline void put_key(Lines& lines, std::size_t first, std::size_t last, std::size_t column, const std::string& text) {
  const std::string key = text.substr(0, text.find(':') + 1);
  const Lines fresh = indented(text, column);
  for (std::size_t i = first; i < last; ++i) {
    if (key_column(lines[i]) != column || !starts_with(lines[i], column, key)) continue;
    const std::size_t after = end_of_block(lines, i, column + 1);
    const std::string dash = lines[i].substr(0, column);
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(i), lines.begin() + static_cast<std::ptrdiff_t>(after));
    lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(i), fresh.begin(), fresh.end());
    lines[i].replace(0, column, dash);
    return;
  }
  lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(first) + 1, fresh.begin(), fresh.end());
}

// Edits from the last line upwards, so that those before keep their places.
inline std::string into(const std::string& design, std::vector<teetally::Edit> edits) {
  std::stable_sort(edits.begin(), edits.end(),
                   [](const auto& a, const auto& b) { return a.place.line > b.place.line; });
  Lines lines = lines_of(design);
  for (const teetally::Edit& edit : edits) {
    if (edit.file != "design" || edit.of.empty() || edit.new_item) continue;
    std::size_t first = static_cast<std::size_t>(edit.place.line) - 1;
    const std::size_t column = key_column(lines[first]);
    put_key(lines, first, end_of_block(lines, first, column), column, edit.text);
  }
  for (const teetally::Edit& edit : edits) {
    if (!edit.new_item) continue;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (lines[i] == edit.of + ":") {
        const Lines fresh = indented(edit.text, 2);
        const std::size_t end = end_of_block(lines, i, 1);
        lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(end), fresh.begin(), fresh.end());
        break;
      }
    }
  }
  std::string out = text_of(lines);
  for (const teetally::Edit& edit : edits) {
    if (edit.file != "design" || !edit.of.empty()) continue;
    lines = lines_of(out);
    std::size_t at = 0;
    while (at < lines.size() && !starts_with(lines[at], 0, "zones:")) ++at;
    if (at < lines.size()) {
      lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at),
                  lines.begin() + static_cast<std::ptrdiff_t>(end_of_block(lines, at, 1)));
    }
    out = text_of(lines) + edit.text + "\n";
  }
  return out;
}

}  // namespace pasted
