#include "teetally/base/diagnostic.h"

#include <boost/test/unit_test.hpp>

#include "teetally/base/report.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

Diagnostic at(std::string_view text, int line, int column) {
  Diagnostic diagnostic;
  diagnostic.slug = "base/bad-value";
  diagnostic.message = "wrong";
  diagnostic.place = {source_from_text("f.yaml", std::string(text)), line, column};
  return diagnostic;
}

// The two lines of the excerpt.
std::string excerpt(std::string_view text, int line, int column) {
  const std::string whole = to_text(at(text, line, column));
  return whole.substr(whole.find('\n') + 1);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(diagnostic)

BOOST_AUTO_TEST_CASE(the_text_form) {
  Diagnostic diagnostic = at("one: 1\ntwo: x\n", 2, 6);
  diagnostic.help = "did you mean '2'?";
  diagnostic.notes.push_back({"because of this", {diagnostic.place.source, 1, 1}});
  diagnostic.notes.push_back({"and of that", {}});
  BOOST_TEST(to_text(diagnostic) ==
             "f.yaml:2:6: error: wrong [base/bad-value]\n"
             "    2 | two: x\n"
             "      |      ^\n"
             "  help: did you mean '2'?\n"
             "  note: f.yaml:1:1: because of this\n"
             "  note: and of that\n");
  diagnostic.place = {};
  diagnostic.severity = Severity::warning;
  diagnostic.notes.clear();
  BOOST_TEST(to_text(diagnostic) == "warning: wrong [base/bad-value]\n  help: did you mean '2'?\n");
}

BOOST_AUTO_TEST_CASE(the_caret_stands_under_the_column_as_displayed) {
  BOOST_TEST(excerpt("é: x", 1, 4) == "    1 | é: x\n      |    ^\n");
  BOOST_TEST(excerpt("水: x", 1, 4) == "    1 | 水: x\n      |     ^\n");
  BOOST_TEST(excerpt("e\u0301: x", 1, 5) == "    1 | e\u0301: x\n      |    ^\n");
  BOOST_TEST(excerpt("a\tb: x", 1, 3) == "    1 | a   b: x\n      |     ^\n");
  BOOST_TEST(excerpt("\x1b[0m x", 1, 6) == "    1 | \\u001b[0m x\n      |           ^\n");
  BOOST_TEST(excerpt("a\r\nb\r\n", 2, 1) == "    2 | b\n      | ^\n");
  BOOST_TEST(excerpt("ab", 1, 3) == "    1 | ab\n      |   ^\n");  // just past the end
  BOOST_TEST(excerpt("", 1, 1) == "    1 | \n      | ^\n");
}

BOOST_AUTO_TEST_CASE(long_lines_are_shown_around_the_caret) {
  const std::string line = std::string(500, 'a') + "X" + std::string(500, 'b');
  const std::string shown = excerpt(line, 1, 501);
  const std::string first = shown.substr(0, shown.find('\n'));
  const std::string second = shown.substr(shown.find('\n') + 1);
  BOOST_TEST(first.size() < 140u);
  BOOST_TEST(first[second.find('^')] == 'X');
  BOOST_TEST(first.substr(0, 11) == "    1 | ...");
  BOOST_TEST(first.substr(first.size() - 4) == " ...");
  // Near its edge the window moves on: something of what follows the caret is always seen.
  BOOST_TEST(excerpt(line, 1, 106).substr(0, 11) == "    1 | ...");
  BOOST_TEST(excerpt(line, 1, 101).substr(0, 11) == "    1 | aaa");
  const std::string start = excerpt(line, 1, 1);
  BOOST_TEST(start.substr(0, 10) == "    1 | aa");
}

BOOST_AUTO_TEST_CASE(the_json_form) {
  Diagnostic diagnostic = at("one: 1\n", 1, 6);
  diagnostic.help = "cure";
  diagnostic.notes.push_back({"why", diagnostic.place});
  BOOST_TEST(to_text(to_json(diagnostic), -1) ==
             R"({"severity":"error","slug":"base/bad-value","file":"f.yaml","line":1,"column":6,)"
             R"("message":"wrong","help":"cure","notes":[{"text":"why","file":"f.yaml","line":1,"column":6}]})");
  diagnostic.place = {};
  diagnostic.help.clear();
  diagnostic.notes.clear();
  BOOST_TEST(to_text(to_json(diagnostic), -1) == R"({"severity":"error","slug":"base/bad-value","message":"wrong"})");
}

BOOST_AUTO_TEST_CASE(entries_come_in_the_order_of_their_places) {
  const Source first = source_from_text("z.yaml", "");
  const Source second = source_from_text("a.yaml", "");
  Diagnostics diagnostics;
  diagnostics.error("base/x", {first, 2, 1}, "3");
  diagnostics.error("base/x", {second, 1, 1}, "5");
  diagnostics.warning("base/x", {first, 1, 9}, "2");
  diagnostics.error("base/x", {first, 2, 1}, "4");
  diagnostics.error("base/x", {first, 1, 2}, "1");
  // The same file read again is the same file.
  diagnostics.error("base/x", {source_from_text("a.yaml", ""), 1, 1}, "6");
  std::string order;
  for (const Diagnostic& entry : diagnostics.in_order()) order += entry.message;
  BOOST_TEST(order == "123456");
}

BOOST_AUTO_TEST_CASE(what_is_wrong_at_a_place_is_said_once) {
  Diagnostics diagnostics;
  diagnostics.add(at("one: 1\n", 1, 1));
  diagnostics.add(at("one: 1\n", 1, 1));
  diagnostics.add(at("one: 1\n", 1, 2));
  diagnostics.error("base/bad-value", at("one: 1\n", 1, 1).place, "wrong too");
  diagnostics.error("base/other", at("one: 1\n", 1, 1).place, "wrong");
  diagnostics.error("base/bad-value", {}, "wrong");
  diagnostics.error("base/bad-value", {}, "wrong");
  BOOST_TEST(diagnostics.in_order().size() == 6u);
}

BOOST_AUTO_TEST_CASE(warnings_are_not_errors) {
  Diagnostics diagnostics;
  BOOST_TEST(!diagnostics.has_errors());
  diagnostics.warning("base/x", {}, "careful").help = "look";
  BOOST_TEST(!diagnostics.has_errors());
  BOOST_TEST(diagnostics.in_order()[0].help == "look");
  diagnostics.add(at("", 1, 1));
  BOOST_TEST(diagnostics.has_errors());
}

BOOST_AUTO_TEST_CASE(a_report_stops_and_counts) {
  Diagnostics diagnostics;
  BOOST_TEST(report_text(diagnostics) == "");
  diagnostics.warning("base/x", {}, "w");
  diagnostics.error("base/x", {}, "e");
  BOOST_TEST(report_text(diagnostics) == "warning: w [base/x]\nerror: e [base/x]\n1 error, 1 warning\n");
  for (int i = 0; i < 30; ++i) diagnostics.error("base/x", {}, "e");
  const std::string text = report_text(diagnostics);
  BOOST_TEST(text.find("warning: w") == std::string::npos);
  BOOST_TEST(text.find("and 12 more\n31 errors, 1 warning\n") != std::string::npos);
  std::size_t lines = 0;
  for (const char c : report_json_lines(diagnostics)) lines += c == '\n' ? 1u : 0u;
  BOOST_TEST(lines == 32u);
}

BOOST_AUTO_TEST_CASE(places_print_and_find_their_lines) {
  const Source source = source_from_text("f\x1b.yaml", "a\nbb\nccc");
  BOOST_TEST(to_string(Place{source, 2, 1}) == "f\\u001b.yaml:2:1");
  BOOST_TEST(line_text({source, 3, 1}) == "ccc");
  BOOST_TEST(line_text({source, 4, 1}) == "");
  BOOST_TEST(to_string(Place{}) == "");
  BOOST_TEST(line_text(Place{}) == "");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
