#include "tool/command_line_checks.h"

#include <algorithm>

namespace teetally {
namespace {

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const CommandRow& row : command_rows()) names.emplace_back(row.name);
  return names;
}

// Commands of two words that begin with this one.
std::vector<std::string> commands_under(const std::string& word) {
  std::vector<std::string> names;
  for (const std::string& name : command_names()) {
    if (name.rfind(word + " ", 0) == 0) names.push_back(name);
  }
  return names;
}

std::string dashed(std::string_view name) { return "--" + std::string(name); }

std::vector<std::string> options_of(const CommandRow& command) {
  std::vector<std::string> names;
  for (const std::string_view option : command.options) names.push_back(dashed(option));
  return names;
}

std::string usage_of(const CommandRow& command) {
  std::string usage = "teetally " + std::string(command.name);
  if (!command.arguments.empty()) usage += " " + std::string(command.arguments);
  return usage;
}

bool names_an_option(const std::string& value, const CommandRow& command) {
  const std::vector<std::string> known = options_of(command);
  return std::find(known.begin(), known.end(), value) != known.end();
}

void check_value(const OptionRow& row, const std::string& value, const CommandRow& command, Diagnostics& diagnostics) {
  const auto& allowed = row.name == "format" ? command.forms : row.words;
  const std::vector<std::string> known(allowed.begin(), allowed.end());
  if (known.empty() || std::find(known.begin(), known.end(), value) != known.end()) return;
  Diagnostic& d = diagnostics.error("tool/bad-value", {},
                                    dashed(row.name) + " is " + quoted(value) + "; expected " + either(known));
  if (const auto near = nearest_word(value, known)) d.help = "did you mean " + quoted(*near) + "?";
}

std::string how_many(int n) { return n == 0 ? "none" : std::to_string(n); }

}  // namespace

bool is_option(const std::string& word) {
  const bool is_number = word.size() > 1 && word[1] >= '0' && word[1] <= '9';  // "-2"
  return word.size() > 1 && word[0] == '-' && !is_number;
}

std::string either(std::vector<std::string> words) {
  if (words.size() < 2) return listed(words);
  const std::string last = words.back();
  words.pop_back();
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text + " or " + last;
}

void check_words(const std::vector<std::string>& words, const CommandRow& command, Diagnostics& diagnostics) {
  for (const std::string& word : words) {
    if (word == "--") return;
    for (const std::string_view name : command.options) {
      if (!option_row(name).value.empty() || word.rfind(dashed(name) + "=", 0) != 0) continue;
      diagnostics.error(
          "tool/bad-command-line", {},
          dashed(name) + " is a switch and takes no value, found " + quoted(word.substr(word.find('=') + 1)));
    }
  }
}

void check_options(const Invocation& invocation, Diagnostics& diagnostics) {
  for (const std::string_view name : invocation.command->options) {
    const OptionRow& row = option_row(name);
    const std::vector<std::string> values = invocation.values(name);
    if (row.repeats == OptionRow::Repeats::once && values.size() > 1) {
      diagnostics.error("tool/given-twice", {},
                        dashed(name) + " is given " + std::to_string(values.size()) + " times; once is expected");
    }
    for (const std::string& value : values) {
      if (names_an_option(value, *invocation.command)) {
        report_missing_value(row, diagnostics);
      } else {
        check_value(row, value, *invocation.command, diagnostics);
      }
    }
  }
}

void check_arguments(const Invocation& invocation, Diagnostics& diagnostics) {
  const CommandRow& command = *invocation.command;
  const int given = static_cast<int>(invocation.arguments.size());
  if (given < command.least) {
    Diagnostic& d = diagnostics.error("tool/missing-argument", {},
                                      quoted(command.name) + " takes " + counted(command.least, "argument") + ", " +
                                          std::string(command.arguments) + "; found " + how_many(given));
    d.help = "usage: " + usage_of(command);
    if (invocation.values("catalogs").size() > 1) {
      d.help += "; --catalogs takes every name up to the next option, so put it last";
    }
  } else if (command.most >= 0 && given > command.most) {
    Diagnostic& d = diagnostics.error("tool/too-many-arguments", {},
                                      quoted(invocation.arguments[static_cast<std::size_t>(command.most)]) +
                                          " is one too many for " + quoted(command.name));
    d.help = command.arguments.empty() ? "it takes no arguments" : "usage: " + usage_of(command);
    const std::vector<std::string> options = options_of(command);
    const bool buys = std::find(options.begin(), options.end(), "--catalogs") != options.end();
    if (buys && invocation.values("catalogs").empty()) d.help += " --catalogs PATH...";
  }
}

void report_unknown_command(const std::vector<std::string>& words, Diagnostics& diagnostics) {
  const std::vector<std::string> under = commands_under(words[0]);
  std::string word = words[0];
  if (!under.empty() && words.size() >= 2 && !is_option(words[1])) word += " " + words[1];
  const auto near = nearest_word(word, command_names());
  std::string message = "unknown command " + quoted(word);
  if (!under.empty()) {
    message += "; expected " + either(under);
  } else if (!near) {
    message += "; expected " + either(command_names());
  }
  diagnostics.error("tool/unknown-command", {}, message).help =
      near ? "did you mean " + quoted(*near) + "?" : "'teetally help' says what each is for";
}

void report_unknown_option(const std::string& word, const CommandRow& command, Diagnostics& diagnostics) {
  const std::string name = word.substr(0, word.find('='));
  Diagnostic& d = diagnostics.error("tool/unknown-option", {}, quoted(command.name) + " has no option " + quoted(name));
  if (const auto near = nearest_word(name, options_of(command))) {
    d.help = "did you mean " + quoted(*near) + "?";
  } else {
    d.help = "teetally help " + std::string(command.name) + " lists its options";
  }
}

void report_missing_value(const OptionRow& row, Diagnostics& diagnostics) {
  diagnostics.error("tool/missing-value", {}, "nothing follows " + dashed(row.name)).help =
      "write " + dashed(row.name) + " " + std::string(row.value);
}

}  // namespace teetally
