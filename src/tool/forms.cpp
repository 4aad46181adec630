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
    case Format::xlsx:  // made by its commands before they come here
    case Format::svg:   // the command table allows it to the plan only, which has no other form but html
    case Format::html:
      return html();
  }
  return {};
}

// The options of the command line that decide what may be bought.
std::string buy_words(const Session& session) {
  const Request& request = session.request;
  std::string text = "teetally buy " + request.arguments[0] + " --catalogs";
  for (const std::string& path : request.catalogs) text += " " + path;
  for (const auto& [name, value] : request.set) text.append(" --set ").append(name).append("=").append(value);
  if (request.practice) text += " --practice " + *request.practice;
  if (request.vocabulary) text += " --vocabulary " + *request.vocabulary;
  if (request.on_hand) text += " --on-hand " + *request.on_hand;
  for (const std::string& supplier : request.limits.only_suppliers) {
    if (supplier != kOnHandId) text += " --only " + supplier;
  }
  for (const std::string& supplier : request.limits.avoid_suppliers) text += " --avoid " + supplier;
  if (request.limits.most_suppliers) text += " --most-suppliers " + std::to_string(*request.limits.most_suppliers);
  if (request.limits.no_bundles) text += " --no-bundles";
  if (request.limits.take_bundle) text += " --take-bundle " + *request.limits.take_bundle;
  return text;
}

void show_instead(Session& session) {
  if (session.request.format != Format::xlsx) return;
  session.request.format = Format::text;
  session.request.output.reset();
}

std::string next_steps(const std::vector<std::string>& commands) {
  std::string out;
  for (const std::string& command : commands) {
    out += (out.empty() ? "\nNext: " : "      ") + printable(command) + "\n";
  }
  return out;
}

}  // namespace teetally
