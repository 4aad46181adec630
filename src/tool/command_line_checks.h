#pragma once
// Everything that can be wrong with the words of a command line; each check only adds diagnostics.
#include <string>
#include <vector>

#include "tool/command_line.h"

namespace teetally {

void check_arguments(const Invocation& invocation, Diagnostics& diagnostics);
// Given once where once is meant, values among those allowed, and no option swallowed as another's value.
void check_options(const Invocation& invocation, Diagnostics& diagnostics);
// Words that can only be wrong, seen before they are taken apart: --switch=value.
void check_words(const std::vector<std::string>& words, const CommandRow& command, Diagnostics& diagnostics);
void report_unknown_option(const std::string& word, const CommandRow& command, Diagnostics& diagnostics);
void report_missing_value(const OptionRow& row, Diagnostics& diagnostics);

bool is_option(const std::string& word);             // "-o", "--output", not "-" or "-2"
std::string either(std::vector<std::string> words);  // "a, b or c"

}  // namespace teetally
