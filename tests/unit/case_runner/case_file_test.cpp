// The case runner must fail when it should: these tests hold it to that.
#include "case_runner/case_file.h"

#include <boost/test/unit_test.hpp>

#include "case_runner/line_diff.h"

BOOST_AUTO_TEST_SUITE(case_files)

BOOST_AUTO_TEST_CASE(reads_every_section) {
  const cases::Case test = cases::read_case(
      "Prose.\n"
      "=== file a.yaml\nkey: 1\n\\=== not a heading\n"
      "=== use catalogs/sample.yaml as shop.yaml\n"
      "=== run\nteetally check a.yaml\n"
      "=== input\ntyped\n"
      "=== stdout\nfine\n"
      "=== stderr in tests/gardens/x/err.txt\n"
      "=== exit 2\n"
      "=== leaves out.csv, any content\n");
  BOOST_TEST(test.about == "Prose.\n");
  BOOST_REQUIRE(test.steps.size() == 1);
  const cases::Step& step = test.steps[0];
  BOOST_REQUIRE(step.inputs.size() == 2);
  BOOST_TEST(step.inputs[0].text.bytes == "key: 1\n=== not a heading\n");
  BOOST_TEST(step.inputs[1].from == "catalogs/sample.yaml");
  BOOST_TEST(step.inputs[1].name == "shop.yaml");
  BOOST_TEST(step.command == "teetally check a.yaml\n");
  BOOST_TEST(step.input.bytes == "typed\n");
  BOOST_TEST(step.out.bytes == "fine\n");
  BOOST_TEST(step.err.in == "tests/gardens/x/err.txt");
  BOOST_TEST(step.exit_code == 2);
  BOOST_REQUIRE(step.leaves.size() == 1);
  BOOST_TEST(step.leaves[0].any_content);
}

BOOST_AUTO_TEST_CASE(prints_what_it_reads) {
  const std::string text =
      "Two commands.\n\n"
      "=== file bad.yaml, escaped\nname: \\xff\\\\\nlast\\\n"
      "=== run\nteetally check bad.yaml\n=== stderr\nno\n=== exit 2\n"
      "=== use catalogs\n"
      "=== run\nteetally buy\n=== stdout in tests/gardens/x/buy.txt\n=== leaves o/a.txt\nA\n";
  const cases::Case test = cases::read_case(text);
  BOOST_TEST(test.steps.at(0).inputs.at(0).text.bytes == "name: \xff\\\nlast");
  BOOST_TEST(cases::print_case(test) == text);
}

BOOST_AUTO_TEST_CASE(refuses_malformed_files) {
  for (const char* text : {"no sections\n", "=== run\n", "=== stdout\nx\n", "=== run\nteetally\n=== exit two\n",
                           "=== run\nteetally\n=== stduot\n", "=== run\nteetally\n=== file late\nx\n",
                           "=== file a, escaped\n\\q\n=== run\nteetally\n", "=== run\nteetally\n=== stdout, loose\n",
                           "=== run\nteetally"}) {
    BOOST_CHECK_THROW(cases::read_case(text), cases::CaseError);
  }
}

BOOST_AUTO_TEST_CASE(escapes_round_trip) {
  for (const std::string& bytes :
       {std::string("plain\n"), std::string("no end"), std::string("\x1b[31mred\n"), std::string("a\\b\n"),
        std::string("\xc3\xa9\n"), std::string("\xc3\n"), std::string("nul\0x\n", 6), std::string("=== run\n")}) {
    BOOST_TEST(cases::unescape(cases::escape(bytes)) == bytes);
  }
  BOOST_TEST(!cases::needs_escape("\xc3\xa9\tx\n"));
  BOOST_TEST(cases::needs_escape("no end"));
  BOOST_TEST(cases::needs_escape("\xff\n"));
}

BOOST_AUTO_TEST_CASE(shows_differences) {
  BOOST_TEST(cases::line_diff("a\nb\n", "a\nb\n") == "");
  BOOST_TEST(cases::line_diff("a\nb\nc\n", "a\nB\nc\n") == "  a\n- b\n+ B\n  c\n");
  BOOST_TEST(cases::line_diff("", "x\n") == "+ x\n");
  BOOST_TEST(cases::line_diff("x\n", "x") != "");
}

BOOST_AUTO_TEST_SUITE_END()
