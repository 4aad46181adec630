#include "teetally/base/words.h"

#include <boost/test/unit_test.hpp>

namespace teetally {

BOOST_AUTO_TEST_SUITE(words)

BOOST_AUTO_TEST_CASE(the_nearest_word_is_within_a_third_of_the_length_plus_one) {
  const std::vector<std::string> known = {"price", "pack", "count", "header", "größe"};
  BOOST_TEST(nearest_word("prise", known).value() == "price");
  BOOST_TEST(nearest_word("pcak", known).value() == "pack");    // a swap costs one
  BOOST_TEST(nearest_word("PRICE", known).value() == "price");  // capitals cost nothing
  BOOST_TEST(nearest_word("haeder", known).value() == "header");
  BOOST_TEST(nearest_word("grösse", known).value() == "größe");  // counted in characters, not bytes
  BOOST_TEST(!nearest_word("thickness", known));
  BOOST_TEST(!nearest_word("ab", {"xyz"}));
  BOOST_TEST(!nearest_word("qty", {"to"}));  // more than half of it differs
  BOOST_TEST(nearest_word("te", {"tee"}).value() == "tee");
  BOOST_TEST(!nearest_word("a", {"b"}));  // all letters differ
  BOOST_TEST(!nearest_word("", known));
  BOOST_TEST(!nearest_word("price", {}));
  BOOST_TEST(nearest_word("pric", {"price", "prick"}).value() == "price");  // ties: the first
  BOOST_TEST(!nearest_word(std::string(100000, 'a'), {std::string(100000, 'b')}));
}

BOOST_AUTO_TEST_CASE(counts_lists_and_quotes) {
  BOOST_TEST(counted(1, "tee") == "1 tee");
  BOOST_TEST(counted(3, "tee") == "3 tees");
  BOOST_TEST(counted(0, "tee") == "0 tees");
  BOOST_TEST(counted(2, "cross", "crosses") == "2 crosses");
  BOOST_TEST(listed({}) == "");
  BOOST_TEST(listed({"a"}) == "a");
  BOOST_TEST(listed({"a", "b"}) == "a and b");
  BOOST_TEST(listed({"a", "b", "c"}) == "a, b and c");
  BOOST_TEST(quoted("a b") == "'a b'");
  BOOST_TEST(quoted(std::string("\x1b[31m")) == "'\\u001b[31m'");
}

BOOST_AUTO_TEST_CASE(utf8_is_checked_to_the_letter) {
  BOOST_TEST(is_valid_utf8("plain, é, 水, 🌱"));
  BOOST_TEST(!is_valid_utf8("\xff"));
  BOOST_TEST(!is_valid_utf8("\xc3"));              // cut off
  BOOST_TEST(!is_valid_utf8("\xc0\xaf"));          // overlong '/'
  BOOST_TEST(!is_valid_utf8("\xe0\x80\xaf"));      // overlong '/'
  BOOST_TEST(!is_valid_utf8("\xed\xa0\x80"));      // a surrogate
  BOOST_TEST(!is_valid_utf8("\xf4\x90\x80\x80"));  // past U+10FFFF
  BOOST_TEST(!is_valid_utf8("\x80"));
}

BOOST_AUTO_TEST_CASE(display_width_counts_terminal_columns) {
  BOOST_TEST(display_width("abc") == 3);
  BOOST_TEST(display_width("é") == 1);
  BOOST_TEST(display_width("e\u0301") == 1);
  BOOST_TEST(display_width("水管") == 4);
  BOOST_TEST(display_width("🌱") == 2);
  BOOST_TEST(display_width("½ in") == 4);
  BOOST_TEST(display_width("") == 0);
}

BOOST_AUTO_TEST_CASE(text_from_files_cannot_drive_a_terminal) {
  BOOST_TEST(printable("a\tb\nc") == "a\\tb\\nc");
  BOOST_TEST(printable("\x1b]0;x\x07") == "\\u001b]0;x\\u0007");
  BOOST_TEST(printable("\xff") == "\\xff");
  BOOST_TEST(printable("a\u202eb") == "a\\u202eb");  // a right-to-left override
  BOOST_TEST(printable("\u009b") == "\\u009b");      // the one-character escape
  BOOST_TEST(printable("é 水") == "é 水");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
