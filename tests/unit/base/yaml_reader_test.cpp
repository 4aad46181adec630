#include <boost/test/unit_test.hpp>

#include "teetally/base/report.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

struct Reading {
  YamlNode root;
  Diagnostics diagnostics;
};

Reading read(std::string text) {
  Reading reading;
  reading.root = read_yaml(source_from_text("f.yaml", std::move(text)), reading.diagnostics);
  return reading;
}

// "line:column slug" of every diagnostic, each on a line.
std::string complaints(const std::string& text) {
  std::string out;
  for (const Diagnostic& entry : read(text).diagnostics.in_order()) {
    out += std::to_string(entry.place.line) + ":" + std::to_string(entry.place.column) + " " + entry.slug + "\n";
  }
  return out;
}

const Diagnostic only(const Reading& reading) {
  const std::vector<Diagnostic> entries = reading.diagnostics.in_order();
  BOOST_REQUIRE_EQUAL(entries.size(), 1u);
  return entries[0];
}

std::string place(const Place& place) { return std::to_string(place.line) + ":" + std::to_string(place.column); }

std::string repeated(std::string_view text, int times) {
  std::string out;
  while (times-- > 0) out += text;
  return out;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(yaml_reader)

BOOST_AUTO_TEST_CASE(the_tree_keeps_order_places_and_quotes) {
  const Reading reading = read("b: 1\na:\n  - \"10\"\n  - {x: 'y', é: [1, 水, z]}\nc: |\n  text\n");
  BOOST_TEST(report_text(reading.diagnostics) == "");
  BOOST_REQUIRE((reading.root.kind == YamlNode::Kind::mapping));
  const auto& entries = reading.root.entries;
  BOOST_REQUIRE(entries.size() == 3u);
  BOOST_TEST(entries[0].key == "b");
  BOOST_TEST(!entries[0].value.quoted);
  BOOST_TEST(place(entries[0].value.place) == "1:4");
  const YamlNode& list = entries[1].value;
  BOOST_REQUIRE(list.items.size() == 2u);
  BOOST_TEST(list.items[0].quoted);
  BOOST_TEST(list.items[0].text == "10");
  BOOST_TEST(place(list.items[0].place) == "3:5");
  // Columns count characters: the letters before are of two and three bytes.
  const YamlNode& inner = list.items[1].entries[1].value;
  BOOST_TEST(place(list.items[1].entries[1].key_place) == "4:14");
  BOOST_TEST(place(inner.items[1].place) == "4:21");
  BOOST_TEST(place(inner.items[2].place) == "4:24");
  BOOST_TEST(entries[2].value.text == "text\n");
  BOOST_TEST(entries[2].value.quoted);
}

BOOST_AUTO_TEST_CASE(numbers_and_words_stay_text) {
  const Reading reading = read("[012, 0x1F, 1e3, .inf, no, 3,20]");
  std::string texts;
  for (const YamlNode& item : reading.root.items) texts += item.text + "|";
  BOOST_TEST(texts == "012|0x1F|1e3|.inf|no|3|20|");
}

BOOST_AUTO_TEST_CASE(an_absent_value_stands_where_its_key_does) {
  const Reading reading = read("a:\n\n# note\nb: ~\nc:\n  -\n  - x\n  -\n");
  const auto& entries = reading.root.entries;
  BOOST_REQUIRE(entries.size() == 3u);
  BOOST_TEST((entries[0].value.kind == YamlNode::Kind::null));
  BOOST_TEST(place(entries[0].value.place) == "1:1");
  BOOST_TEST(place(entries[1].value.place) == "4:1");
  BOOST_TEST(place(entries[2].value.items[0].place) == "6:3");
  BOOST_TEST(place(entries[2].value.items[2].place) == "8:3");
}

BOOST_AUTO_TEST_CASE(a_duplicate_key_names_both_places_and_keeps_the_first) {
  const Reading reading = read("a: 1\nb: {c: 1, c: 2}\na: 3\n");
  BOOST_TEST(complaints("a: 1\nb: {c: 1, c: 2}\na: 3\n") == "2:11 base/duplicate-key\n3:1 base/duplicate-key\n");
  const Diagnostic second = reading.diagnostics.in_order()[1];
  BOOST_TEST(second.message == "the key 'a' is given twice");
  BOOST_REQUIRE(second.notes.size() == 1u);
  BOOST_TEST(place(second.notes[0].place) == "1:1");
  BOOST_REQUIRE(reading.root.entries.size() == 2u);
  BOOST_TEST(reading.root.entries[0].value.text == "1");
}

BOOST_AUTO_TEST_CASE(one_file_is_one_document) {
  BOOST_TEST(complaints("a: 1\n---\nb: 2\n") == "2:1 base/second-document\n");
  BOOST_TEST(complaints("a: 1\n...\nb: 2\n") == "3:1 base/second-document\n");
  BOOST_TEST(complaints("---\na: 1\n") == "");
  // The library never comes to the end of this one.
  BOOST_TEST(complaints(",") == "1:1 base/second-document\n");
  BOOST_TEST(complaints(", a\n") == "1:1 base/second-document\n");
}

BOOST_AUTO_TEST_CASE(aliases_anchors_merges_and_tags_are_refused) {
  BOOST_TEST(complaints("a: &x 1\nb: *x\n") == "1:4 base/alias\n2:4 base/alias\n");
  BOOST_TEST(complaints("a: *x\n") == "1:4 base/alias\n");
  BOOST_TEST(complaints("a: &x [1, *x]\n") == "1:4 base/alias\n1:11 base/alias\n");
  BOOST_TEST(complaints("&r [1]\n") == "1:1 base/alias\n");
  BOOST_TEST(complaints("a:\n  <<: {b: 1}\n") == "2:3 base/merge-key\n");
  BOOST_TEST(complaints("'<<': 1\n") == "");
  BOOST_TEST(complaints("a: !!int 3\n") == "1:4 base/tag\n");
  BOOST_TEST(complaints("a: !mine [3]\n") == "1:4 base/tag\n");
  BOOST_TEST(complaints("!!map {a: 3}\n") == "1:1 base/tag\n");
}

BOOST_AUTO_TEST_CASE(an_alias_bomb_is_refused_at_once) {
  std::string text = "a0: &a0 x\n";
  for (int i = 1; i < 12; ++i) {
    const std::string before = "*a" + std::to_string(i - 1);
    text += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + repeated(before + ", ", 8) + before + "]\n";
  }
  const Reading reading = read(text);
  BOOST_TEST(reading.diagnostics.has_errors());
}

BOOST_AUTO_TEST_CASE(keys_are_words) {
  BOOST_TEST(complaints("[a]: 1\n") == "1:1 base/key-not-text\n");
  BOOST_TEST(complaints("{a: 1, , b: 2}\n") == "1:8 base/key-not-text\n");
  BOOST_TEST(complaints("? {a: 1}\n: 2\n") == "1:3 base/key-not-text\n");
  BOOST_TEST(complaints("~: 2\n") == "1:1 base/key-not-text\n");
}

BOOST_AUTO_TEST_CASE(nesting_has_a_limit) {
  const auto nested = [](int depth) { return repeated("[", depth) + repeated("]", depth); };
  BOOST_TEST(complaints(nested(kDeepestNesting)) == "");
  BOOST_TEST(complaints(nested(kDeepestNesting + 1)).find("base/too-deep") != std::string::npos);
  BOOST_TEST(complaints(repeated("[", 100000)).find("base/too-deep") != std::string::npos);
  BOOST_TEST(complaints(repeated("{a: ", 100000)).find("base/too-deep") != std::string::npos);
  BOOST_TEST(complaints(repeated("- ", 100000)).find("base/too-deep") != std::string::npos);
  BOOST_TEST(complaints(repeated("? ", 100000)).find("base/too-deep") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(only_clean_utf8_is_read) {
  BOOST_TEST(complaints("a: \xff\n") == "1:4 base/bad-text\n");
  BOOST_TEST(complaints("é: 1\nb: \xc3\n") == "2:4 base/bad-text\n");
  BOOST_TEST(complaints(std::string("a: \0b\n", 6)) == "1:4 base/bad-text\n");
  BOOST_TEST(complaints("a: \x1b[31m\n") == "1:4 base/bad-text\n");
  BOOST_TEST(complaints("a: 1\rb: 2\r") == "1:5 base/bad-text\n");
  BOOST_TEST(complaints("a: \"\\e[31m\"\n") == "1:4 base/bad-text\n");
  BOOST_TEST(complaints("a: \"x\\0\"\n") == "1:4 base/bad-text\n");
  const std::string utf16(
      "\xff\xfe"
      "a\0:\0",
      6);
  BOOST_TEST(only(read(utf16)).message == "the file is UTF-16 text; expected UTF-8");
  BOOST_TEST(only(read(std::string("a\0:\0 \0", 6))).message == "the file is UTF-16 text; expected UTF-8");
  // A byte-order mark and Windows line ends are welcome, and columns do not count them.
  const Reading reading = read(
      "\xEF\xBB\xBF"
      "a: 1\r\nb:\r\n  - x\r\n");
  BOOST_TEST(report_text(reading.diagnostics) == "");
  BOOST_TEST(place(reading.root.entries[0].value.place) == "1:4");
  BOOST_TEST(place(reading.root.entries[1].value.items[0].place) == "3:5");
  BOOST_TEST(reading.root.entries[1].value.items[0].text == "x");
}

BOOST_AUTO_TEST_CASE(what_is_never_closed_is_shown_where_it_opens) {
  const auto note = [](const std::string& text) {
    const Diagnostic error = only(read(text));
    BOOST_TEST(error.slug == "base/bad-yaml");
    return error.notes.empty() ? std::string("none") : error.notes[0].text + " at " + place(error.notes[0].place);
  };
  BOOST_TEST(note("a: 1\nb: [1, 2\nc: 3\n") == "the [ opened here is never closed at 2:4");
  BOOST_TEST(note("a: {x: 1\nb: 2\n") == "the { opened here is never closed at 1:4");
  BOOST_TEST(note("a: [1, {b: 2}\n# ] in a comment\nc: 3\n") == "the [ opened here is never closed at 1:4");
  BOOST_TEST(note("a: ']'\nb: [\n") == "the [ opened here is never closed at 2:4");
  BOOST_TEST(note("a: b: c\n") == "none");
  for (const std::string quote : {"\"", "'"}) {
    for (const std::string tail : {"", "\n", "\nb: 2\n", "\n\nb: 2\nc: 3\n"}) {
      const Reading reading = read("x: 1\na: " + quote + "text" + tail);
      const Diagnostic error = only(reading);
      BOOST_TEST(error.slug == "base/bad-yaml");
      const bool at_quote = place(error.place) == "2:4";
      BOOST_TEST((at_quote || (error.notes.size() == 1 && place(error.notes[0].place) == "2:4")));
    }
  }
}

BOOST_AUTO_TEST_CASE(broken_yaml_is_told_in_plain_words) {
  BOOST_TEST(only(read("a: b: c\n")).message == "a ':' is not expected here");
  BOOST_TEST(complaints("é: b: c\n") == "1:5 base/bad-yaml\n");
  BOOST_TEST(complaints("a:\n\t- b\n").find("base/bad-yaml") != std::string::npos);
  BOOST_TEST(complaints("a: ]\n").find("base/bad-yaml") != std::string::npos);
  BOOST_TEST(complaints("a: 1\n - b\n").find("base/bad-yaml") == std::string::npos);  // one text of two lines
  BOOST_TEST(complaints("a: 'x'\n- b\n").find("base/bad-yaml") != std::string::npos);
  BOOST_TEST(complaints("a: \"\\q\"\n").find("base/bad-yaml") != std::string::npos);
  BOOST_TEST(complaints("a: @x\n").find("base/bad-yaml") != std::string::npos);
  BOOST_TEST(complaints("%YAML 9.9\n---\na: 1\n").find("base/bad-yaml") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(empty_files_are_errors_whatever_was_reported_before) {
  for (const char* text : {"", "\n\n", "# nothing\n", "---\n", "~\n"})
    BOOST_TEST(complaints(text) == "1:1 base/empty-file\n");
  Diagnostics diagnostics;
  diagnostics.error("base/x", {}, "of another file");
  read_yaml(source_from_text("f.yaml", ""), diagnostics);
  BOOST_TEST(diagnostics.in_order().size() == 2u);
}

BOOST_AUTO_TEST_CASE(files_over_the_limit_are_refused) {
  const Reading reading = read(std::string(kLargestFile + 1, ' '));
  BOOST_TEST(only(reading).slug == "base/file-too-large");
}

// Linear, or these would take minutes.
BOOST_AUTO_TEST_CASE(large_files_are_read_in_linear_time) {
  std::string map, line = "[";
  for (int i = 0; i < 50000; ++i) map += "key" + std::to_string(i) + ": {a: 1}\n";
  for (int i = 0; i < 200000; ++i) line += "é,";
  const Reading keys = read(map);
  BOOST_TEST(keys.root.entries.size() == 50000u);
  const Reading items = read(line + "é]");
  BOOST_TEST(items.root.items.size() == 200001u);
  BOOST_TEST(place(items.root.items[200000].place) == "1:400002");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
