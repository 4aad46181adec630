// The tree says nothing about where or how it was made, leaves nothing half done, and stays in small files.
#include <boost/test/unit_test.hpp>

#include "structure/tree.h"

namespace {

constexpr std::size_t kMostLines = 450;

// Everything a person wrote by hand.
std::vector<tree::File> written() {
  std::vector<tree::File> all = tree::files("", {".md", ".txt", ".json", ".yaml"});
  for (const char* name : {"bootstrap", ".clang-tidy", ".clang-format"}) all.push_back({name, tree::read(name)});
  for (const char* folder : {"include", "src", "tests", "docs", "catalogs", "templates", ".ci"}) {
    for (tree::File& file :
         tree::files(folder, {".h", ".cpp", ".md", ".cmake", ".txt", ".yaml", ".csv", ".case", ".json", ".svg", ""})) {
      all.push_back(std::move(file));
    }
  }
  return all;
}

// Split so that this file does not accuse itself.
const std::vector<std::string> kUnfinished = {
    "TO"
    "DO",
    "FIX"
    "ME",
    "XX"
    "X",
    "HA"
    "CK",
    "place"
    "holder",
    "not impl"
    "emented",
    "lorem ip"
    "sum"};
const std::vector<std::string> kMachine = {
    "/wo"
    "rk/",
    "/tm"
    "p/",
    "/ho"
    "me/",
    "/ro"
    "ot/",
    "/Us"
    "ers/",
    "local"
    "host",
    "127.0."
    "0.1",
    "../sha"
    "red"};

void refuse(const std::vector<tree::File>& all, const std::vector<std::string>& words) {
  for (const tree::File& file : all) {
    for (const std::string& word : words) {
      BOOST_TEST(file.text.find(word) == std::string::npos, file.path << " contains '" << word << "'");
    }
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(tidiness)

BOOST_AUTO_TEST_CASE(nothing_is_marked_unfinished) { refuse(written(), kUnfinished); }

BOOST_AUTO_TEST_CASE(nothing_names_a_machine) { refuse(written(), kMachine); }

BOOST_AUTO_TEST_CASE(source_files_are_small) {
  for (const tree::File& file : tree::program()) {
    BOOST_TEST(tree::lines(file.text).size() <= kMostLines, file.path);
  }
}

BOOST_AUTO_TEST_CASE(headers_say_what_they_promise) {
  for (const tree::File& file : tree::program()) {
    if (file.path.substr(file.path.rfind('.')) != ".h") continue;
    BOOST_TEST(file.text.compare(0, 16, "#pragma once\n// ") == 0,
               file.path << " must open with #pragma once and a comment");
  }
}

BOOST_AUTO_TEST_CASE(types_are_nouns_of_the_trade) {
  for (const tree::File& file : tree::program()) {
    const std::string code = tree::code_only(file.text);
    for (const std::string start : {"struct ", "class "}) {
      for (auto at = code.find(start); at != std::string::npos; at = code.find(start, at + 1)) {
        const auto first = at + start.size();
        const std::string name = code.substr(first, code.find_first_of(" \n;:<{", first) - first);
        for (const std::string ending : {"Manager", "Helper", "Utils", "Util", "Data", "Info"}) {
          const bool ends =
              name.size() >= ending.size() && name.compare(name.size() - ending.size(), ending.size(), ending) == 0;
          BOOST_TEST(!ends, file.path << " declares " << name);
        }
      }
    }
  }
}

BOOST_AUTO_TEST_CASE(text_files_end_with_one_line_feed_and_have_no_trailing_blanks_in_code) {
  for (const tree::File& file : tree::program()) {
    BOOST_TEST((!file.text.empty() && file.text.back() == '\n'), file.path);
    BOOST_TEST(file.text.find(" \n") == std::string::npos, file.path);
    BOOST_TEST(file.text.find('\t') == std::string::npos, file.path);
  }
}

BOOST_AUTO_TEST_SUITE_END()
