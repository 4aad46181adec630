// Each outside library is named in one source file, and only the tool touches the process it runs in.
#include <boost/test/unit_test.hpp>
#include <map>

#include "structure/tree.h"

namespace {

// Includes in brackets that start so belong to one file each.
const std::vector<std::pair<std::string, std::string>> kHome = {
    {"yaml-cpp/", "src/base/yaml_reader.cpp"},      {"nlohmann/", "src/base/json_writer.cpp"},
    {"Cbc", "src/purchase/linear/cbc.cpp"},         {"Cgl", "src/purchase/linear/cbc.cpp"},
    {"Clp", "src/purchase/linear/cbc.cpp"},         {"Coin", "src/purchase/linear/cbc.cpp"},
    {"Eigen/", "src/hydraulics/sparse_solver.cpp"}, {"Osi", "src/purchase/linear/cbc.cpp"},
    {"CLI/", "src/tool/command_line.cpp"},          {"sqlite3.h", "src/store/sqlite.cpp"},
    {"nettle/", "src/store/content_hash.cpp"},      {"kainjow/", "src/render/page/template.cpp"},
    {"xlsxwriter", "src/render/xlsx_writer.cpp"},
};

// The vocabulary of the language that every file may use: formatting and error values.
const std::vector<std::string> kEverywhere = {"fmt/", "tl/expected.hpp"};

bool starts_with(const std::string& text, const std::string& start) {
  return text.compare(0, start.size(), start) == 0;
}

// The standard library's own headers have neither a folder nor an ending.
bool standard(const std::string& include) { return include.find_first_of("/.") == std::string::npos; }

std::string home_of(const std::string& include) {
  for (const auto& [start, home] : kHome) {
    if (starts_with(include, start)) return home;
  }
  return "";
}

bool allowed(const std::string& include, const std::string& path) {
  if (const std::string home = home_of(include); !home.empty()) return path == home;
  for (const std::string& start : kEverywhere) {
    if (starts_with(include, start)) return true;
  }
  // System headers: the tool has them for streams and signals, and one file of base to write files whole.
  return standard(include) || tree::stage_of(path) == "tool" || path == "src/base/file.cpp";
}

// Words of code that belong to the tool alone. std::chrono::steady_clock is not among them: the purchase
// measures its time limit with it, and a time limit is part of what it is asked.
const std::vector<std::string> kToolOnly = {
    "main(",      "argv",  "std::cout",   "std::cerr",  "std::cin",  "std::clog",   "stdout", "stderr",  "stdin",
    "printf(",    "puts(", "fmt::print(", "std::exit(", "exit(",     "_exit(",      "abort(", "getenv",  "system_clock",
    "std::time(", "time(", "localtime",   "gmtime",     "setlocale", "std::locale", "isatty", "signal(",
};

}  // namespace

BOOST_AUTO_TEST_SUITE(one_place)

BOOST_AUTO_TEST_CASE(an_outside_library_is_named_in_its_one_file) {
  for (const tree::File& file : tree::program()) {
    for (const tree::Include& include : tree::includes(file.text)) {
      if (include.outside)
        BOOST_TEST(allowed(include.name, file.path), file.path << " includes <" << include.name << ">");
    }
  }
}

// A library whose home is not there would make the test above hold for nothing.
BOOST_AUTO_TEST_CASE(every_library_has_its_home) {
  std::map<std::string, int> uses;
  for (const tree::File& file : tree::program()) {
    for (const tree::Include& include : tree::includes(file.text)) ++uses[home_of(include.name)];
  }
  for (const auto& [start, home] : kHome) {
    if (tree::exists(home)) BOOST_TEST(uses[home] > 0, home << " does not include its library");
  }
}

BOOST_AUTO_TEST_CASE(only_the_tool_touches_the_process) {
  for (const tree::File& file : tree::program()) {
    if (tree::stage_of(file.path) == "tool") continue;
    const std::string code = tree::code_only(file.text);
    for (const std::string& word : kToolOnly) {
      BOOST_TEST(!tree::has_word(code, word), file.path << " uses " << word);
    }
  }
}

BOOST_AUTO_TEST_CASE(slow_and_unparsable_headers_stay_out) {
  for (const tree::File& file : tree::program()) {
    const std::string code = tree::code_only(file.text);
    BOOST_TEST(file.text.find("#include <regex>") == std::string::npos, file.path);
    BOOST_TEST(file.text.find("#include <ranges>") == std::string::npos, file.path);
    BOOST_TEST(!tree::has_word(code, "views::"), file.path);
  }
}

BOOST_AUTO_TEST_SUITE_END()
