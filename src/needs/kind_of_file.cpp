// Looks only at the first key, as text: a file that is damaged further down still says what it is, so that
// its own reader can name the damage.
#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>

#include "needs/file_form.h"
#include "teetally/base/text.h"
#include "teetally/needs.h"

namespace teetally {
namespace {

std::string_view unquoted(std::string_view text) {
  const bool is_quoted =
      text.size() >= 2 && (text.front() == '"' || text.front() == '\'') && text.back() == text.front();
  return is_quoted ? text.substr(1, text.size() - 2) : text;
}

// The first line that is neither blank, a comment nor a document start.
std::string_view first_entry(std::string_view text) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = trimmed(text.substr(0, end));
    if (!line.empty() && line.front() != '#' && line != "---") return line;
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return {};
}

}  // namespace

bool is_csv(const Source& source) {
  const std::string& name = source->name;
  if (name.size() < 4) return false;
  return lower_case(std::string_view(name).substr(name.size() - 4)) == ".csv";
}

FileKind kind_of_file(const Source& source) {
  static constexpr std::array<std::pair<std::string_view, FileKind>, 7> kKinds = {{
      {"design", FileKind::design},
      {"parts list", FileKind::parts_list},
      {"pool", FileKind::pool},
      {"catalog", FileKind::catalog},
      {"practice", FileKind::practice},
      {"vocabulary", FileKind::vocabulary},
      {"on hand", FileKind::on_hand},
  }};
  if (is_csv(source)) return FileKind::parts_list;
  const std::string_view line = first_entry(source->text);
  const std::size_t colon = line.find(':');
  if (colon == std::string_view::npos || unquoted(trimmed(line.substr(0, colon))) != "teetally")
    return FileKind::unknown;
  std::string_view value = line.substr(colon + 1);
  value = unquoted(trimmed(value.substr(0, value.find(" #"))));
  for (const auto& [word, kind] : kKinds) {
    // The version that follows the word is the reader's concern.
    if (value == word || (value.substr(0, word.size()) == word && value[word.size()] == ' ')) return kind;
  }
  return FileKind::unknown;
}

}  // namespace teetally
