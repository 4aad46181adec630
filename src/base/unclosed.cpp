#include "base/unclosed.h"

#include <fmt/format.h>

#include <string_view>
#include <vector>

#include "base/source_text.h"

namespace teetally {
namespace {

struct Opening {
  char sign;
  std::size_t at;
};

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

}  // namespace

std::size_t end_of_quote(std::string_view text, std::size_t at) {
  const char quote = text[at];
  for (++at; at < text.size(); ++at) {
    if (quote == '"' && text[at] == '\\') {
      ++at;
    } else if (text[at] == quote) {
      const bool doubled = quote == '\'' && at + 1 < text.size() && text[at + 1] == quote;
      if (!doubled) return at;
      ++at;
    }
  }
  return std::string_view::npos;
}

std::optional<DiagnosticNote> last_unclosed(const Source& source) {
  const std::string_view text = source->text;
  std::vector<Opening> open;
  bool at_token = true;  // the next character would start a value
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (is_blank(c)) {
      if (c == '\n') at_token = true;
      continue;
    }
    const bool comment = c == '#' && (at == 0 || is_blank(text[at - 1]));
    if (comment) {
      const std::size_t end = text.find('\n', at);
      at = end == std::string_view::npos ? text.size() : end - 1;
      continue;
    }
    if (at_token && (c == '"' || c == '\'')) {
      const std::size_t end = end_of_quote(text, at);
      if (end == std::string_view::npos) {
        open.push_back({c, at});
        break;
      }
      at = end;
      at_token = false;
      continue;
    }
    const bool opens = (c == '[' || c == '{') && (at_token || !open.empty());
    if (opens) {
      open.push_back({c, at});
    } else if ((c == ']' || c == '}') && !open.empty()) {
      if ((c == ']') != (open.back().sign == '[')) break;  // closes another one: the last opened is the culprit
      open.pop_back();
    }
    const bool before_blank = at + 1 >= text.size() || is_blank(text[at + 1]);
    at_token = opens || (c == ',' && !open.empty()) || ((c == ':' || (c == '-' && at_token)) && before_blank);
  }
  if (open.empty()) return std::nullopt;
  return DiagnosticNote{fmt::format("the {} opened here is never closed", open.back().sign),
                        LineIndex(source).place_at(open.back().at)};
}

}  // namespace teetally
