#include "teetally/render.h"
#include "tool/commands.h"

namespace teetally {

std::string in_form(const Session& session, const std::function<std::string()>& text,
                    const std::function<Json()>& document, const std::function<std::string()>& csv) {
  return in_form(session, text, document, csv, text);  // the command table allows no html here
}

std::string in_form(const Session& session, const std::function<std::string()>& text,
                    const std::function<Json()>& document, const std::function<std::string()>& csv,
                    const std::function<std::string()>& html) {
  switch (session.request.format) {
    case Format::text:
      return text();
    case Format::json:
      return to_text(document()) + "\n";
    case Format::csv:
      return csv();
    case Format::svg:  // the command table allows it to the plan only, which has no other form but html
    case Format::html:
      return html();
  }
  return {};
}

std::string next_steps(const std::vector<std::string>& commands) {
  std::string out;
  for (const std::string& command : commands) {
    out += (out.empty() ? "\nNext: " : "      ") + printable(command) + "\n";
  }
  return out;
}

}  // namespace teetally
