#include <algorithm>

#include "teetally/render.h"
#include "tool/command_line.h"
#include "tool/command_line_checks.h"
#include "tool/commands.h"

namespace teetally {
namespace {

std::string usage_of(const CommandRow& command) {
  std::string usage = "teetally " + std::string(command.name);
  if (!command.arguments.empty()) usage += " " + std::string(command.arguments);
  if (!command.options.empty()) usage += " [OPTIONS]";
  return usage;
}

constexpr int kLeastExplanation = 24;  // columns; with fewer the explanation goes below

std::string two_columns(const std::vector<std::pair<std::string, std::string>>& rows, int width) {
  TextTable table{{{""}, {"", Column::Side::left, true}}, {}};
  int left_width = 0;
  for (const auto& [left, right] : rows) {
    table.rows.push_back({left, right});
    left_width = std::max(left_width, display_width(left));
  }
  if (width - left_width - 4 >= kLeastExplanation) return laid_out(table, width, 2);
  std::string out;
  for (const auto& [left, right] : rows) out += "  " + left + "\n" + wrapped(right, width, 6, 6);
  return out;
}

std::string front_page(int width) {
  std::string out = wrapped("teetally plans, prices and buys the parts of a small drip-watering system.", width);
  out += "\n" + wrapped(
                    "Describe a garden in a small file, with what you measured. teetally says whether it works at your "
                    "tap, lists every part with the reason for it, and finds the cheapest order among your suppliers' "
                    "price lists. Everything stays on your computer.",
                    width);
  out += "\nStart here\n";
  out += two_columns({{"teetally init my-garden", "makes a garden to edit"},
                      {"cd my-garden", ""},
                      {"teetally check garden.yaml", "does it work?"},
                      {"teetally takeoff garden.yaml", "which parts, and why?"},
                      {"teetally buy garden.yaml --catalogs catalogs", "the cheapest order"}},
                     width);
  out += "\nCommands\n";
  std::vector<std::pair<std::string, std::string>> rows;
  for (const CommandRow& command : command_rows()) {
    std::string name(command.name);
    if (!command.arguments.empty()) name += " " + std::string(command.arguments);
    rows.emplace_back(name, command.summary);
  }
  out += two_columns(rows, width);
  out += "\n" + wrapped("teetally help COMMAND tells more, with options and examples.", width);
  return out + "\n" +
         wrapped(
             "Ends with 0 when done, 1 on a bug of its own, 2 when the command or a file is wrong, 3 when there "
             "is no answer (nothing to buy, or the garden will not work), 4 when disk or solver failed.",
             width);
}

std::string option_name(const OptionRow& row) {
  std::string name = row.letter == '\0' ? "    " : std::string("-") + row.letter + ", ";
  name += "--" + std::string(row.name);
  if (!row.value.empty()) name += " " + std::string(row.value);
  return name;
}

std::string about_option(const OptionRow& row, const CommandRow& command) {
  std::string about(row.about);
  if (row.name != "format") return about;
  std::vector<std::string> forms(command.forms.begin(), command.forms.end());
  forms.front() += " (default)";
  return about + ": " + either(forms);
}

std::string command_page(const CommandRow& command, int width) {
  std::string out = wrapped("teetally " + std::string(command.name) + ": " + std::string(command.summary), width);
  out += "\nUsage: " + usage_of(command) + "\n";
  if (!command.about.empty()) out += "\n" + wrapped(command.about, width);
  if (!command.examples.empty()) {
    out += "\nExamples\n";
    for (const Example& example : command.examples) {
      out += "  " + std::string(example.command) + "\n";
      out += wrapped(example.about, width, 6, 6);
    }
  }
  if (!command.options.empty()) {
    out += "\nOptions\n";
    std::vector<std::pair<std::string, std::string>> rows;
    for (const std::string_view name : command.options) {
      rows.emplace_back(option_name(option_row(name)), about_option(option_row(name), command));
    }
    out += two_columns(rows, width);
  }
  return out;
}

}  // namespace

Answer run_help(Session& session) {
  const std::vector<std::string>& words = session.request.arguments;
  if (words.empty()) return {ExitCode::done, front_page(session.width)};
  const std::string name = words.size() == 1 ? words[0] : words[0] + " " + words[1];
  if (const CommandRow* command = find_command(name)) return {ExitCode::done, command_page(*command, session.width)};
  report_unknown_command(words, session.diagnostics);
  return stopped(session);
}

}  // namespace teetally
