#include <fmt/format.h>

#include "base/utf8.h"
#include "teetally/base/diagnostic.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

constexpr int kTabStop = 4;
// A longer line is shown as a window around its caret.
constexpr int kWidestExcerpt = 110;
constexpr int kBeforeCaret = 60;

// One source line made safe for the terminal, and where its caret goes.
struct Excerpt {
  std::string text;
  int caret = 0;
};

std::string shown(std::string_view line, std::size_t at, const Character& c, int width_so_far) {
  if (c.valid && c.code == U'\t') return std::string(static_cast<std::size_t>(kTabStop - width_so_far % kTabStop), ' ');
  return printable(line.substr(at, c.bytes));
}

Excerpt excerpt_of(const Place& place) {
  const std::string_view line = line_text(place);
  Excerpt out;
  std::size_t at = 0;
  int width = 0;
  std::vector<std::pair<std::string, int>> cells;  // each character as shown, with the column it starts in
  int caret_width = -1;
  for (int column = 1; at < line.size() && column < place.column + kWidestExcerpt; ++column) {
    if (column == place.column) caret_width = width;
    const Character c = character_at(line, at);
    cells.emplace_back(shown(line, at, c, width), width);
    width += display_width(cells.back().first);
    at += c.bytes;
  }
  if (caret_width < 0) caret_width = width;
  const bool cut_front = caret_width > kWidestExcerpt - 10;
  const int from = cut_front ? caret_width - kBeforeCaret : 0;
  int start = -1;
  for (const auto& [text, column] : cells) {
    if (column < from) continue;
    if (start < 0) start = column;
    if (column - from > kWidestExcerpt) {
      at = 0;
      break;
    }
    out.text += text;
  }
  out.caret = caret_width - std::max(start, 0);
  if (cut_front) {
    out.text = "... " + out.text;
    out.caret += 4;
  }
  if (at < line.size()) out.text += " ...";
  return out;
}

std::string excerpt_lines(const Place& place) {
  const Excerpt excerpt = excerpt_of(place);
  return fmt::format("{:5} | {}\n      | {:>{}}\n", place.line, excerpt.text, "^", excerpt.caret + 1);
}

std::string_view severity_word(Severity severity) { return severity == Severity::error ? "error" : "warning"; }

std::string prefix(const Place& place) { return place.known() ? to_string(place) + ": " : std::string(); }

void add_place(Json& json, const Place& place) {
  if (!place.known()) return;
  json.set("file", place.source->name).set("line", place.line).set("column", place.column);
}

}  // namespace

std::string to_text(const Diagnostic& diagnostic) {
  std::string out = fmt::format("{}{}: {} [{}]\n", prefix(diagnostic.place), severity_word(diagnostic.severity),
                                printable(diagnostic.message), diagnostic.slug);
  if (diagnostic.place.known()) out += excerpt_lines(diagnostic.place);
  if (!diagnostic.help.empty()) out += fmt::format("  help: {}\n", printable(diagnostic.help));
  for (const DiagnosticNote& note : diagnostic.notes) {
    out += fmt::format("  note: {}{}\n", prefix(note.place), printable(note.text));
  }
  return out;
}

Json to_json(const Diagnostic& diagnostic) {
  Json json = Json::object();
  json.set("severity", std::string(severity_word(diagnostic.severity))).set("slug", diagnostic.slug);
  add_place(json, diagnostic.place);
  json.set("message", diagnostic.message);
  if (!diagnostic.help.empty()) json.set("help", diagnostic.help);
  if (!diagnostic.notes.empty()) {
    Json notes = Json::array();
    for (const DiagnosticNote& note : diagnostic.notes) {
      Json entry = Json::object();
      entry.set("text", note.text);
      add_place(entry, note.place);
      notes.push(std::move(entry));
    }
    json.set("notes", std::move(notes));
  }
  return json;
}

}  // namespace teetally
