// The one file that names CLI11. It only splits words into options and arguments here; which command is meant,
// what is wrong and what was probably meant are said by us, in our words and with our exit codes.
#include "tool/command_line.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>

#include "tool/command_line_checks.h"

namespace teetally {
namespace {

// The command the words begin with, and how many words name it.
std::pair<const CommandRow*, std::size_t> command_of(const std::vector<std::string>& words) {
  if (words.size() >= 2) {
    if (const CommandRow* row = find_command(words[0] + " " + words[1])) return {row, 2};
  }
  return {find_command(words[0]), 1};
}

// -h or --help before any "--" asks for the page of whatever command was named.
bool asks_for_help(const std::vector<std::string>& words) {
  const auto end = std::find(words.begin(), words.end(), "--");
  return std::any_of(words.begin(), end, [](const std::string& w) { return w == "-h" || w == "--help"; });
}

// One CLI11 application for the one command that was named: options collect texts, nothing is judged by it.
struct Splitter {
  CLI::App app;
  std::map<std::string, std::vector<std::string>> values;
  std::map<std::string, bool> switches;
  std::vector<std::string> arguments;

  explicit Splitter(const CommandRow& command) {
    app.set_help_flag();
    app.allow_extras();
    for (const std::string_view name : command.options) add(option_row(name));
    app.add_option("words", arguments)->expected(0, -1);
  }

  void add(const OptionRow& row) {
    std::string names = "--" + std::string(row.name);
    if (row.letter != '\0') names += std::string(",-") + row.letter;
    if (row.value.empty()) {
      app.add_flag(names, switches[std::string(row.name)]);
      return;
    }
    CLI::Option* option = app.add_option(names, values[std::string(row.name)]);
    const bool rest = row.repeats == OptionRow::Repeats::rest;
    option->expected(1, rest ? CLI::detail::expected_max_vector_size : 1);
    option->allow_extra_args(rest);
    option->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
  }
};

// The option that an ArgumentMismatch complains about; its text starts with the option's name.
const OptionRow* blamed_option(const CLI::ArgumentMismatch& mismatch, const CommandRow& command) {
  for (const std::string_view name : command.options) {
    if (std::string(mismatch.what()).rfind("--" + std::string(name) + ":", 0) == 0) return &option_row(name);
  }
  return nullptr;
}

void split(Splitter& splitter, std::vector<std::string> words, const CommandRow& command, Diagnostics& diagnostics) {
  std::reverse(words.begin(), words.end());  // CLI11 takes them last first
  try {
    splitter.app.parse(words);
    return;
  } catch (const CLI::ArgumentMismatch& e) {
    if (const OptionRow* row = blamed_option(e, command)) return report_missing_value(*row, diagnostics);
    diagnostics.error("tool/bad-command-line", {}, e.what());
  } catch (const CLI::ParseError& e) {
    diagnostics.error("tool/bad-command-line", {}, e.what());
  }
}

// What CLI11 could not place: unknown options, and words behind "--".
void place_extras(const Splitter& splitter, Invocation& invocation, Diagnostics& diagnostics) {
  bool options_ended = false;
  for (const std::string& word : splitter.app.remaining()) {
    if (word == "--") {
      options_ended = true;
    } else if (!options_ended && is_option(word)) {
      report_unknown_option(word, *invocation.command, diagnostics);
    } else {
      invocation.arguments.push_back(word);
    }
  }
}

Invocation taken_apart(const CommandRow& command, const std::vector<std::string>& words, Diagnostics& diagnostics) {
  Invocation invocation;
  invocation.command = &command;
  check_words(words, command, diagnostics);
  if (diagnostics.has_errors()) return invocation;
  Splitter splitter(command);
  split(splitter, words, command, diagnostics);
  if (diagnostics.has_errors()) return invocation;
  invocation.arguments = splitter.arguments;
  for (const std::string_view name : command.options) {
    for (const std::string& value : splitter.values[std::string(name)]) invocation.options.emplace_back(name, value);
    if (splitter.switches[std::string(name)]) invocation.options.emplace_back(name, "");
  }
  place_extras(splitter, invocation, diagnostics);
  check_options(invocation, diagnostics);
  if (!diagnostics.has_errors()) check_arguments(invocation, diagnostics);
  return invocation;
}

}  // namespace

bool Invocation::has(std::string_view option) const { return value(option).has_value(); }

std::optional<std::string> Invocation::value(std::string_view option) const {
  for (const auto& [name, text] : options) {
    if (name == option) return text;
  }
  return std::nullopt;
}

std::vector<std::string> Invocation::values(std::string_view option) const {
  std::vector<std::string> all;
  for (const auto& [name, text] : options) {
    if (name == option) all.push_back(text);
  }
  return all;
}

std::optional<Invocation> read_command_line(const std::vector<std::string>& words, Diagnostics& diagnostics) {
  Invocation help;
  help.command = find_command("help");
  if (words.empty()) return help;
  if (words.size() == 1 && words[0] == "--version") {
    Invocation version;
    version.command = find_command("version");
    return version;
  }
  const auto [command, named_by] = command_of(words);
  if (asks_for_help(words)) {
    if (command != nullptr) help.arguments = {std::string(command->name)};
    return help;
  }
  if (command == nullptr && is_option(words[0])) {
    diagnostics.error("tool/missing-command", {}, teetally::quoted(words[0]) + " stands where the command is expected")
        .help = "write the command first: teetally COMMAND [OPTIONS]";
    return std::nullopt;
  }
  if (command == nullptr) {
    report_unknown_command(words, diagnostics);
    return std::nullopt;
  }
  Diagnostics found;
  Invocation invocation =
      taken_apart(*command, {words.begin() + static_cast<std::ptrdiff_t>(named_by), words.end()}, found);
  for (Diagnostic& d : found.in_order()) diagnostics.add(std::move(d));
  if (found.has_errors()) return std::nullopt;
  return invocation;
}

}  // namespace teetally
