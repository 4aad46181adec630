#include "teetally/base/place.h"

#include "teetally/base/words.h"

namespace teetally {

std::string to_string(const Place& place) {
  if (!place.known()) return {};
  return printable(place.source->name) + ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
}

std::string_view line_text(const Place& place) {
  if (!place.known()) return {};
  std::string_view rest = place.source->text;
  for (int line = 1; line < place.line; ++line) {
    const std::size_t end = rest.find('\n');
    if (end == std::string_view::npos) return {};
    rest.remove_prefix(end + 1);
  }
  rest = rest.substr(0, rest.find('\n'));
  if (!rest.empty() && rest.back() == '\r') rest.remove_suffix(1);
  return rest;
}

}  // namespace teetally
