// Words become an invocation and a request, or diagnostics in our own words.
#include "tool/command_line.h"

#include <boost/test/unit_test.hpp>

#include "tool/request.h"

using namespace teetally;

namespace {

std::vector<std::string> slugs(const Diagnostics& diagnostics) {
  std::vector<std::string> all;
  for (const Diagnostic& d : diagnostics.in_order()) all.push_back(d.slug);
  return all;
}

std::vector<std::string> slugs_of(const std::vector<std::string>& words) {
  Diagnostics diagnostics;
  const auto invocation = read_command_line(words, diagnostics);
  if (invocation) read_request(*invocation, {"2026-04-30", "store.sqlite"}, diagnostics);
  return slugs(diagnostics);
}

std::optional<Request> request_of(const std::vector<std::string>& words) {
  Diagnostics diagnostics;
  const auto invocation = read_command_line(words, diagnostics);
  return invocation ? read_request(*invocation, {"2026-04-30", "store.sqlite"}, diagnostics) : std::nullopt;
}

using Slugs = std::vector<std::string>;

}  // namespace

BOOST_AUTO_TEST_SUITE(command_line)

BOOST_AUTO_TEST_CASE(options_may_stand_before_and_after_the_argument) {
  for (const auto& words : {std::vector<std::string>{"takeoff", "a.yaml", "--format", "csv", "-o", "x"},
                            {"takeoff", "--format=csv", "-o", "x", "a.yaml"},
                            {"takeoff", "-f", "csv", "a.yaml", "--output=x"}}) {
    const auto request = request_of(words);
    BOOST_TEST_REQUIRE(request.has_value());
    BOOST_TEST(request->arguments == std::vector<std::string>{"a.yaml"});
    BOOST_TEST((request->format == Format::csv));
    BOOST_TEST(request->output.value_or("") == "x");
  }
}

BOOST_AUTO_TEST_CASE(catalogs_take_all_words_up_to_the_next_option) {
  const auto request = request_of({"buy", "a.yaml", "--catalogs", "x", "y", "--stats", "--catalogs", "z"});
  BOOST_TEST_REQUIRE(request.has_value());
  BOOST_TEST(request->catalogs == (std::vector<std::string>{"x", "y", "z"}));
  BOOST_TEST(request->stats);
}

BOOST_AUTO_TEST_CASE(a_dash_is_an_argument) {
  const auto request = request_of({"takeoff", "-"});
  BOOST_TEST_REQUIRE(request.has_value());
  BOOST_TEST(request->arguments == std::vector<std::string>{"-"});
}

BOOST_AUTO_TEST_CASE(after_two_dashes_all_words_are_arguments) {
  const auto request = request_of({"takeoff", "--", "--odd-name.yaml"});
  BOOST_TEST_REQUIRE(request.has_value());
  BOOST_TEST(request->arguments == std::vector<std::string>{"--odd-name.yaml"});
}

BOOST_AUTO_TEST_CASE(parameters_may_hold_equals_signs_and_nothing) {
  const auto request = request_of({"check", "a.yaml", "--set", "text=a=b", "-s", "none="});
  BOOST_TEST_REQUIRE(request.has_value());
  BOOST_TEST(request->set.at("text") == "a=b");
  BOOST_TEST(request->set.at("none") == "");
}

BOOST_AUTO_TEST_CASE(today_is_the_clocks_unless_it_is_given) {
  BOOST_TEST(request_of({"buy", "a", "--catalogs", "c"})->today == "2026-04-30");
  BOOST_TEST(request_of({"buy", "a", "--catalogs", "c", "--today", "2024-02-29"})->today == "2024-02-29");
}

BOOST_AUTO_TEST_CASE(mistakes_have_names) {
  BOOST_TEST(slugs_of({"byu"}) == Slugs{"tool/unknown-command"});
  BOOST_TEST(slugs_of({"--units", "us"}) == Slugs{"tool/missing-command"});
  BOOST_TEST(slugs_of({"check", "a", "--catalogs", "c"}) == Slugs{"tool/unknown-option"});
  BOOST_TEST(slugs_of({"check"}) == Slugs{"tool/missing-argument"});
  BOOST_TEST(slugs_of({"check", "a", "b"}) == Slugs{"tool/too-many-arguments"});
  BOOST_TEST(slugs_of({"check", "a", "--output"}) == Slugs{"tool/missing-value"});
  BOOST_TEST(slugs_of({"check", "a", "-f", "csv", "-f", "csv"}) == Slugs{"tool/given-twice"});
  BOOST_TEST(slugs_of({"check", "a", "--format", "xml"}) == Slugs{"tool/bad-value"});
}

BOOST_AUTO_TEST_SUITE_END()
