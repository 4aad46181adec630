// Every command and option has its page in docs/commands.md and a case that uses it, and the page tells of no
// other. The list of them is the program's own table.
#include <boost/test/unit_test.hpp>
#include <map>

#include "case_runner/case_file.h"
#include "structure/tree.h"
#include "tool/command_table.h"

using namespace teetally;

namespace {

// The sections of docs/commands.md by command: "## teetally buy".
std::map<std::string, std::string> pages() {
  std::map<std::string, std::string> found;
  std::string command;
  for (const std::string& line : tree::lines(tree::read("docs/commands.md"))) {
    if (line.compare(0, 12, "## teetally ") == 0) command = line.substr(12);
    if (line.compare(0, 3, "## ") == 0 && line.compare(0, 12, "## teetally ") != 0) command.clear();
    if (!command.empty()) found[command] += line + "\n";
  }
  return found;
}

// All that cases run, a command per line.
std::string all_runs() {
  std::string runs;
  for (const char* folder : {"tests/cases", "tests/gardens", "tests/reference"}) {
    for (const tree::File& file : tree::files(folder, {".case"})) {
      for (const cases::Step& step : cases::read_case(file.text).steps) runs += step.command;
    }
  }
  return runs;
}

// The option as a word of its own in any spelling of it, "--format", "--format=csv", "-f".
bool names_option(const std::string& text, const OptionRow& option) {
  if (tree::has_word(text, "--" + std::string(option.name))) return true;
  return option.letter != '\0' && text.find(std::string(" -") + option.letter + " ") != std::string::npos;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(commands)

BOOST_AUTO_TEST_CASE(every_command_has_a_page_and_every_page_a_command) {
  const auto all = pages();
  for (const CommandRow& command : command_rows()) {
    BOOST_TEST(all.count(std::string(command.name)) == 1u, command.name << " has no page");
  }
  for (const auto& [name, text] : all) BOOST_TEST(find_command(name) != nullptr, name << " is no command");
}

BOOST_AUTO_TEST_CASE(every_page_names_the_options_of_its_command) {
  const auto all = pages();
  for (const CommandRow& command : command_rows()) {
    const auto page = all.find(std::string(command.name));
    if (page == all.end()) continue;
    for (const std::string_view option : command.options) {
      BOOST_TEST(names_option(page->second, option_row(option)),
                 "the page of " << command.name << " leaves out --" << option);
    }
  }
}

BOOST_AUTO_TEST_CASE(every_command_and_option_is_used_by_a_case) {
  const std::string runs = all_runs();
  for (const CommandRow& command : command_rows()) {
    BOOST_TEST(runs.find("teetally " + std::string(command.name)) != std::string::npos,
               command.name << " is in no case");
  }
  for (const OptionRow& option : option_rows()) {
    BOOST_TEST(names_option(runs, option), "--" << option.name << " is in no case");
  }
}

BOOST_AUTO_TEST_CASE(every_command_shows_an_example_of_itself) {
  for (const CommandRow& command : command_rows()) {
    for (const Example& example : command.examples) {
      const std::string start = "teetally " + std::string(command.name);
      BOOST_TEST(std::string(example.command).compare(0, start.size(), start) == 0, example.command);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
