#pragma once
// The words after the program's name become an Invocation: the command, its arguments and its options, by the
// command table. Mistakes become diagnostics (tool/...) with the nearest known word.
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "teetally/base.h"
#include "tool/command_table.h"

namespace teetally {

struct Invocation {
  const CommandRow* command = nullptr;
  std::vector<std::string> arguments;
  std::vector<std::pair<std::string, std::string>> options;  // long name and value, in table order then as given

  bool has(std::string_view option) const;
  std::optional<std::string> value(std::string_view option) const;
  std::vector<std::string> values(std::string_view option) const;
};

// No words at all, and -h or --help anywhere, are the command "help"; --version alone is "version".
std::optional<Invocation> read_command_line(const std::vector<std::string>& words, Diagnostics& diagnostics);

// tool/unknown-command for the words that should have named one.
void report_unknown_command(const std::vector<std::string>& words, Diagnostics& diagnostics);

}  // namespace teetally
