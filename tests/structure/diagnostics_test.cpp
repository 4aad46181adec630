// Every diagnostic the program can give has an entry in docs/diagnostics.md and a test, and every entry has a
// diagnostic.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <map>

#include "structure/tree.h"

namespace {

// "stage/what-is-wrong" and nothing else.
bool is_slug(const std::string& text) {
  const auto slash = text.find('/');
  if (slash == std::string::npos || tree::rank_of(text.substr(0, slash)) < 0) return false;
  const std::string what = text.substr(slash + 1);
  return !what.empty() && what.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

// What the reader of mappings (teetally/base/yaml.h) puts after the stage it reads for.
const std::vector<std::string> kReaderWords = {"bad-value", "missing-key", "unknown-key", "wrong-type"};

void add_reader_slugs(const tree::File& file, std::map<std::string, std::string>& slugs) {
  const std::string stage = tree::stage_of(file.path);
  const bool reads = file.path.compare(0, 4, "src/") == 0 && tree::has_word(tree::code_only(file.text), "Fields");
  for (const std::string& word : kReaderWords) {
    if (reads) slugs.emplace(stage + "/" + word, file.path);
  }
}

std::map<std::string, std::string> slugs_in_source() {
  std::map<std::string, std::string> slugs;
  for (const tree::File& file : tree::program()) {
    for (const std::string& literal : tree::literals(file.text)) {
      if (is_slug(literal)) slugs.emplace(literal, file.path);
    }
    add_reader_slugs(file, slugs);
  }
  return slugs;
}

struct Entry {
  std::string slug, body;
};

std::vector<Entry> entries() {
  std::vector<Entry> found;
  for (const std::string& line : tree::lines(tree::read("docs/diagnostics.md"))) {
    if (line.compare(0, 3, "## ") == 0) {
      found.push_back({line.substr(3), ""});
    } else if (!found.empty()) {
      found.back().body += line + "\n";
    }
  }
  return found;
}

std::string all_cases() {
  std::string text;
  for (const char* folder : {"cases", "gardens", "reference"}) {
    for (const tree::File& file : tree::files(std::string("tests/") + folder, {".case", ".txt"})) text += file.text;
  }
  return text;
}

// Guards of a stage's own contract: through the program nobody meets them, because an earlier stage complains first.
// Unit tests give them.
const std::map<std::string, std::string> kGuards = {
    {"catalog/no-catalog", "the command line asks for catalogs: tool/no-catalogs"},
    {"catalog/unreadable-folder", "who runs the tests may be allowed to list every folder"},
    {"hydraulics/no-flow", "the reader of designs wants a flow above zero: design/bad-value"},
    {"hydraulics/no-pressure", "the reader of designs wants a pressure above zero: design/bad-value"},
    {"hydraulics/not-joined", "laying out finds it: garden/not-connected"},
    {"hydraulics/unknown-size", "laying out finds it: garden/unknown-size"},
    {"needs/element-without-part", "laying out finds it: garden/no-length"},
    {"purchase/contradicting-limits", "the command line finds it: tool/options-disagree"},
};

// All text of tests, but for this folder's.
std::string all_tests() {
  std::string text;
  for (const char* folder : {"cases", "gardens", "reference", "unit", "property", "exhaustive"}) {
    for (const tree::File& file : tree::files(std::string("tests/") + folder, {".case", ".cpp", ".txt"})) {
      text += file.text;
    }
  }
  return text;
}

// The slug as a whole: "base/tag" is not named by "base/tag-unknown".
bool names_slug(const std::string& text, const std::string& slug) {
  const std::string more = "abcdefghijklmnopqrstuvwxyz0123456789-";
  for (auto at = text.find(slug); at != std::string::npos; at = text.find(slug, at + 1)) {
    const auto end = at + slug.size();
    if (end >= text.size() || more.find(text[end]) == std::string::npos) return true;
  }
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(diagnostics)

BOOST_AUTO_TEST_CASE(the_slug_finder_works) {
  BOOST_TEST(is_slug("design/unknown-key"));
  BOOST_TEST(!is_slug("design/site.h"));
  BOOST_TEST(!is_slug("nowhere/unknown-key"));
  BOOST_TEST(!is_slug("design/"));
}

BOOST_AUTO_TEST_CASE(the_reader_of_mappings_gives_the_words_we_know) {
  const std::string text = tree::read("src/base/fields.cpp");
  const std::string call = "report(\"";
  int found = 0;
  for (auto at = text.find(call); at != std::string::npos; at = text.find(call, at + 1)) {
    const auto start = at + call.size();
    const std::string word = text.substr(start, text.find('"', start) - start);
    BOOST_TEST(std::count(kReaderWords.begin(), kReaderWords.end(), word) == 1, word);
    ++found;
  }
  BOOST_TEST(found >= 3);
}

BOOST_AUTO_TEST_CASE(every_diagnostic_has_an_entry) {
  const std::vector<Entry> all = entries();
  for (const auto& [slug, path] : slugs_in_source()) {
    const auto named = [&s = slug](const Entry& entry) { return entry.slug == s; };
    BOOST_TEST(std::any_of(all.begin(), all.end(), named), slug << " (" << path << ") has no entry");
  }
}

BOOST_AUTO_TEST_CASE(every_entry_has_a_diagnostic) {
  const auto slugs = slugs_in_source();
  for (const Entry& entry : entries()) BOOST_TEST(slugs.count(entry.slug) == 1u, entry.slug << " is never given");
}

BOOST_AUTO_TEST_CASE(entries_are_sorted_once_each_and_say_something) {
  const std::vector<Entry> all = entries();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool sorted = i == 0 || all[i - 1].slug < all[i].slug;
    BOOST_TEST(sorted, all[i].slug << " is out of order");
    BOOST_TEST(all[i].body.size() > 60, all[i].slug << " has an empty entry");
  }
}

BOOST_AUTO_TEST_CASE(every_diagnostic_is_tested) {
  const std::string tests = all_tests();
  for (const auto& [slug, path] : slugs_in_source()) {
    BOOST_TEST(names_slug(tests, slug), slug << " (" << path << ") occurs in no test");
  }
}

BOOST_AUTO_TEST_CASE(every_diagnostic_is_shown_whole_in_a_case) {
  const std::string cases = all_cases();
  for (const auto& [slug, path] : slugs_in_source()) {
    const bool shown = cases.find("[" + slug + "]") != std::string::npos;
    if (kGuards.count(slug) != 0) {
      BOOST_TEST(!shown, slug << " has a case: take it off the list of guards");
    } else {
      BOOST_TEST(shown, slug << " (" << path << ") is shown by no .case");
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
