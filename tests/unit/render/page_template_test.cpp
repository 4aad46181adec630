// Templates: what they print is escaped, and a name that a page does not have is an error with its line.
#include <boost/test/unit_test.hpp>

#include "render/page/template.h"

using namespace teetally;

namespace {

using Kind = PageName::Kind;

const std::vector<PageName>& names() {
  static const std::vector<PageName> kNames = {
      {"style", Kind::markup, {}},
      {"title", Kind::text, {}},
      {"lines", Kind::list, {{"sku", Kind::text, {}}, {"total", Kind::text, {}}}},
      {"notices", Kind::list, {}},
  };
  return kNames;
}

Json values() {
  Json lines = Json::array();
  lines.push(Json::object().set("sku", "A<1>").set("total", "2.50"));
  lines.push(Json::object().set("sku", "=B&\"2\"").set("total", ""));
  Json notices = Json::array();
  notices.push("{{title}}").push("\x1b[31m'");
  return Json::object().set("style", "a>b").set("title", "Order").set("lines", lines).set("notices", notices);
}

std::string filled(const std::string& text) { return fill_template(text, values(), names()); }

std::vector<Diagnostic> wrong_in(const std::string& text) {
  Diagnostics diagnostics;
  check_names(source_from_text("mine.mustache", text), names(), diagnostics);
  return diagnostics.in_order();
}

std::string slug_of(const std::string& text) {
  const auto wrong = wrong_in(text);
  return wrong.size() == 1 ? wrong.front().slug : std::to_string(wrong.size()) + " messages";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(page_template)

BOOST_AUTO_TEST_CASE(values_are_escaped_and_lists_repeat) {
  BOOST_TEST(filled("{{title}}:{{#lines}} {{sku}}={{total}}{{/lines}}") ==
             "Order: A&lt;1&gt;=2.50 =B&amp;&quot;2&quot;=");
}

BOOST_AUTO_TEST_CASE(an_empty_text_counts_as_nothing) {
  BOOST_TEST(filled("{{#lines}}{{#total}}has {{total}}{{/total}}{{^total}}, has none{{/total}}{{/lines}}") ==
             "has 2.50, has none");
}

BOOST_AUTO_TEST_CASE(what_looks_like_a_tag_in_a_value_stays_text) {
  BOOST_TEST(filled("{{#notices}}[{{.}}]{{/notices}}") == "[{{title}}][\\u001b[31m&#39;]");
}

BOOST_AUTO_TEST_CASE(markup_of_our_own_is_printed_as_it_is) { BOOST_TEST(filled("{{{style}}}") == "a>b"); }

BOOST_AUTO_TEST_CASE(known_names_at_their_place_pass) {
  BOOST_TEST(wrong_in("{{title}}{{#lines}}{{sku}}{{title}}{{/lines}}{{! a remark }}{{#notices}}{{.}}{{/notices}}"
                      "{{^lines}}{{title}}{{/lines}}{{#title}}{{title}}{{/title}}")
                 .empty());
}

BOOST_AUTO_TEST_CASE(an_unknown_name_is_told_with_its_line) {
  const auto wrong = wrong_in("<h1>{{title}}</h1>\n{{#lines}}{{skuu}}{{/lines}}\n{{sku}}{{.}}");
  BOOST_REQUIRE_EQUAL(wrong.size(), 3u);
  BOOST_TEST(wrong[0].slug == "render/unknown-name");
  BOOST_TEST(to_string(wrong[0].place) == "mine.mustache:2:11");
  BOOST_TEST(wrong[0].help == "did you mean 'sku'?");
  BOOST_TEST(to_string(wrong[1].place) == "mine.mustache:3:1");  // sku belongs to a line
  BOOST_TEST(to_string(wrong[2].place) == "mine.mustache:3:8");  // and no list of texts is open
}

// Inside what is shown when a list is empty, there is no line of it.
BOOST_AUTO_TEST_CASE(an_absent_list_has_no_names) {
  BOOST_TEST(slug_of("{{^lines}}{{sku}}{{/lines}}") == "render/unknown-name");
}

BOOST_AUTO_TEST_CASE(sections_and_tags_that_do_not_close_are_told) {
  BOOST_TEST(slug_of("{{#lines}}") == "render/section-mismatch");
  BOOST_TEST(slug_of("{{/lines}}") == "render/section-mismatch");
  BOOST_TEST(slug_of("a {{title") == "render/open-tag");
}

BOOST_AUTO_TEST_CASE(text_is_never_printed_as_markup) {
  BOOST_TEST(slug_of("{{{title}}}") == "render/raw-text");
  BOOST_TEST(slug_of("{{& title}}") == "render/raw-text");
  BOOST_TEST(slug_of("{{#notices}}{{{.}}}{{/notices}}") == "render/raw-text");
  BOOST_TEST(slug_of("{{style}}") == "render/raw-text");
  BOOST_TEST(slug_of("{{lines}}") == "render/list-as-text");
}

BOOST_AUTO_TEST_CASE(other_files_and_other_braces_are_refused) {
  BOOST_TEST(slug_of("{{> footer}}") == "render/unsupported-tag");
  BOOST_TEST(slug_of("{{=<% %>=}}") == "render/unsupported-tag");
}

BOOST_AUTO_TEST_CASE(values_that_differ_from_the_names_promised_are_told) {
  BOOST_TEST(unlike(values(), names()).empty());
  BOOST_TEST(unlike(Json::object().set("title", 3), names()).size() == 4u);
  BOOST_TEST(unlike(values().set("more", ""), names()).size() == 1u);
}

BOOST_AUTO_TEST_SUITE_END()
