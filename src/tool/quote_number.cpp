#include "tool/quote_number.h"

namespace teetally {

std::optional<std::int64_t> quote_number(Session& session) {
  const std::string& word = session.request.arguments[0];
  const auto number = parse_count(word);
  if (number && *number >= 1) return *number;
  session.diagnostics
      .error("tool/bad-value", {}, "the quote is " + quoted(printable(word)) + "; its number is expected")
      .help = "'teetally quote list' shows all";
  return std::nullopt;
}

}  // namespace teetally
