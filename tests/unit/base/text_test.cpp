#include "teetally/base/text.h"

#include <boost/test/unit_test.hpp>

#include "teetally/base/iso_date.h"

namespace teetally {

BOOST_AUTO_TEST_SUITE(text)

BOOST_AUTO_TEST_CASE(blanks_at_the_ends_go_and_those_inside_become_one) {
  BOOST_TEST(trimmed(" \ta  b\r\n") == "a  b");
  BOOST_TEST(trimmed(" \t\r\n") == "");
  BOOST_TEST(trimmed("") == "");
  BOOST_TEST(single_spaced("  supply \t tubing\n") == "supply tubing");
  BOOST_TEST(single_spaced(" ") == "");
}

BOOST_AUTO_TEST_CASE(only_ascii_letters_become_small) {
  BOOST_TEST(lower_case("3/4 in BSP") == "3/4 in bsp");
  BOOST_TEST(lower_case("AZ[@\xC3\x84") == "az[@\xC3\x84");
}

BOOST_AUTO_TEST_CASE(a_date_is_of_a_day_that_exists) {
  BOOST_TEST(is_iso_date("2024-02-29"));
  for (const char* text : {"", "2026-02-29", "2026-13-01", "2026-00-10", "2026-4-3", "26-04-30", "2026/04/30",
                           "2026-04-3O", "2026-04-30 "}) {
    BOOST_TEST(!is_iso_date(text), text);
  }
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
