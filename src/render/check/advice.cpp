#include <fmt/format.h>

#include "render/check/parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

std::string indented(std::string_view text, int indent) {
  const std::string margin(static_cast<std::size_t>(indent), ' ');
  std::string out = margin;
  for (const char c : text) {
    out += c;
    if (c == '\n') out += margin;
  }
  return out + "\n";
}

std::string printable_lines(const std::string& text) {
  std::string out;
  std::size_t start = 0;
  while (true) {
    const std::size_t end = text.find('\n', start);
    out += printable(text.substr(start, end == std::string::npos ? end : end - start));
    if (end == std::string::npos) return out;
    out += '\n';
    start = end + 1;
  }
}

}  // namespace

std::string edit_place_phrase(const Edit& edit) {
  if (edit.file == "practice") return "practice file, a group of the top level";
  const std::string file =
      edit.place.known() ? fmt::format("{}, line {}", edit.place.source->name, edit.place.line) : std::string();
  if (edit.new_item) return fmt::format("one more item of '{}'", edit.of);
  if (edit.of.empty()) return "design, top level";
  return file.empty() ? edit.of : file + ", " + edit.of;
}

// Lines to paste are never wrapped.
std::string advice_section(const std::vector<Advice>& advice, const Page& page) {
  std::string out;
  for (std::size_t i = 0; i < advice.size(); ++i) {
    const Advice& one = advice[i];
    std::string words = printable(one.words);
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
    out += "\n" + wrapped(fmt::format("{}. {}.", i + 1, words), page.width, 2, 5);
    if (!one.outcome.empty()) out += wrapped("Then it " + printable(one.outcome) + ".", page.width, 5, 5);
    if (!one.warnings.empty()) {
      out +=
          wrapped("But note: " + printable(one.warnings[0]) +
                      (one.warnings.size() > 1 ? fmt::format("; and {} more like it.", one.warnings.size() - 1) : "."),
                  page.width, 5, 5);
    }
    for (const Edit& edit : one.edits) {
      out += wrapped(printable(edit_place_phrase(edit)) + ":", page.width, 5, 7);
      out += indented(printable_lines(edit.text), 9);
    }
  }
  return out;
}

}  // namespace teetally
