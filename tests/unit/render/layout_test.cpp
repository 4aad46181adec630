// Text that fits: words wrapped to a width, tables whose growing column gives way.
#include "teetally/render/layout.h"

#include <boost/test/unit_test.hpp>

#include "teetally/base/words.h"

using namespace teetally;

namespace {

int widest(const std::string& text) {
  int width = 0;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    width = std::max(width, display_width(std::string_view(text).substr(at, end - at)));
    at = end + 1;
  }
  return width;
}

TextTable parts_table() {
  return {
      {{"Need"}, {"Part", Column::Side::left, true}, {"Waste", Column::Side::right}, {"Total", Column::Side::right}},
      {{"N01", "supply tubing, size 1/2 in, of the kind that is buried", "", "84 ft 6 in"}, {"N02", "tee", "", "3"}}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(layout)

BOOST_AUTO_TEST_CASE(words_wrap_at_the_width) {
  BOOST_TEST(wrapped("one two three four", 14) == "one two three\nfour\n");
  BOOST_TEST(wrapped("one two three four", 20, 2, 4) == "  one two three\n    four\n");
}

BOOST_AUTO_TEST_CASE(nothing_wraps_to_nothing) {
  BOOST_TEST(wrapped("", 40) == "");
  BOOST_TEST(wrapped("   ", 40) == "");
}

BOOST_AUTO_TEST_CASE(a_word_longer_than_the_width_stands_alone) {
  BOOST_TEST(wrapped("a bbbbbbbbbbbbbbbbbbbbbbbbb c", 14) == "a\nbbbbbbbbbbbbbbbbbbbbbbbbb\nc\n");
}

BOOST_AUTO_TEST_CASE(wide_characters_count_two) {
  // Three characters of two columns and a blank: 13 columns hold only one pair.
  BOOST_TEST(wrapped("\u6C34\u7BA1\u7BA1 \u6C34\u7BA1\u7BA1 \u6C34", 13) ==
             "\u6C34\u7BA1\u7BA1 \u6C34\u7BA1\u7BA1\n\u6C34\n");
}

BOOST_AUTO_TEST_CASE(a_table_fits_and_its_empty_column_is_left_out) {
  const std::string text = laid_out(parts_table(), 44, 2);
  BOOST_TEST(widest(text) <= 44);
  BOOST_TEST(text.find("Waste") == std::string::npos);
  BOOST_TEST(text.find("buried") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(numbers_stand_at_the_right) {
  const std::string text = laid_out(parts_table(), 80, 0);
  BOOST_TEST(text.find("tee") != std::string::npos);
  BOOST_TEST(text.find("         3\n") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(no_line_ends_in_blanks) {
  const std::string text = laid_out(parts_table(), 44, 2);
  BOOST_TEST(text.find(" \n") == std::string::npos);
}

BOOST_AUTO_TEST_CASE(a_narrow_terminal_gets_the_narrowest_width) {
  BOOST_TEST(laid_out(parts_table(), 5, 0) == laid_out(parts_table(), kNarrowest, 0));
}

BOOST_AUTO_TEST_CASE(a_table_without_content_is_nothing) {
  BOOST_TEST(laid_out({{{"Need"}, {"Part"}}, {}}, 80, 0) == "");
}

BOOST_AUTO_TEST_SUITE_END()
