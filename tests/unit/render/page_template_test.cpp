// Templates: what they print is escaped, and a name that a page does not have is an error with its line.
#include "render/page_template.h"

#include <boost/test/unit_test.hpp>

using namespace teetally;

namespace {

Json values() {
  Json lines = Json::array();
  lines.push(Json::object().set("sku", "A<1>").set("total", "2.50"));
  lines.push(Json::object().set("sku", "=B&\"2\"").set("total", "3.00"));
  return Json::object().set("title", "Order").set("lines", lines).set("notice", Json::array());
}

std::vector<Diagnostic> wrong_in(const std::string& text) {
  Diagnostics diagnostics;
  check_names(source_from_text("mine.mustache", text), values(), diagnostics);
  return diagnostics.in_order();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(page_template)

BOOST_AUTO_TEST_CASE(values_are_escaped_and_lists_repeat) {
  BOOST_TEST(fill_template("{{title}}:{{#lines}} {{sku}}={{total}}{{/lines}}{{^notice}} none{{/notice}}", values()) ==
             "Order: A&lt;1&gt;=2.50 =B&amp;&quot;2&quot;=3.00 none");
}

BOOST_AUTO_TEST_CASE(known_names_at_their_place_pass) {
  BOOST_TEST(wrong_in("{{title}}{{#lines}}{{sku}}{{title}}{{/lines}}{{! a remark }}").empty());
}

BOOST_AUTO_TEST_CASE(an_unknown_name_is_told_with_its_line) {
  const auto wrong = wrong_in("<h1>{{title}}</h1>\n{{#lines}}{{skuu}}{{/lines}}\n{{sku}}");
  BOOST_REQUIRE_EQUAL(wrong.size(), 2u);
  BOOST_TEST(wrong[0].slug == "render/unknown-name");
  BOOST_TEST(to_string(wrong[0].place) == "mine.mustache:2:11");
  BOOST_TEST(wrong[0].help == "did you mean 'sku'?");
  BOOST_TEST(to_string(wrong[1].place) == "mine.mustache:3:1");  // sku belongs to a line
}

BOOST_AUTO_TEST_CASE(sections_and_tags_that_do_not_close_are_told) {
  BOOST_TEST(wrong_in("{{#lines}}").at(0).slug == "render/section-mismatch");
  BOOST_TEST(wrong_in("{{/lines}}").at(0).slug == "render/section-mismatch");
  BOOST_TEST(wrong_in("a {{title").at(0).slug == "render/open-tag");
}

BOOST_AUTO_TEST_SUITE_END()
