#pragma once
// The commands and options of the program as a table: the command line is parsed by it, the help pages are
// printed from it, and tests compare docs/commands.md with it.
#include <string_view>
#include <vector>

namespace teetally {

struct OptionRow {
  std::string_view name;                                            // "format", given as --format
  char letter = '\0';                                               // 'o' for -o
  std::string_view value;                                           // "FILE" in help; empty: a switch without a value
  enum class Repeats { once, each, rest } repeats = Repeats::once;  // rest: takes all words up to the next option
  std::vector<std::string_view> words;                              // the only values allowed, if listed
  std::string_view about;
};

struct Example {
  std::string_view command;
  std::string_view about;
};

struct CommandRow {
  std::string_view name;       // "buy", "catalog check"
  std::string_view arguments;  // "DESIGN|PARTS"; empty: none
  int least = 0, most = 0;     // how many arguments; most < 0: any number
  std::string_view summary;    // one line
  std::string_view about;      // a paragraph
  std::vector<std::string_view> options;
  std::vector<Example> examples;
  std::vector<std::string_view> forms = {"text", "json", "csv"};  // of the result, the default first
};

const std::vector<OptionRow>& option_rows();
const std::vector<CommandRow>& command_rows();
const OptionRow& option_row(std::string_view name);  // asserts that it exists
const CommandRow* find_command(std::string_view name);

}  // namespace teetally
