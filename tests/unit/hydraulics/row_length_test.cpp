// The longest row that still waters evenly: it passes, one outlet more does not, and it grows with what helps.
#include "hydraulics/row_length.h"

#include <boost/test/unit_test.hpp>

#include "unit/hydraulics/made_garden.h"

using namespace teetally::hydraulics;

namespace {

Settings settings() { return settings_of(made::practice()); }

RowKind row(double l_per_h, double spacing, bool compensating = false) {
  RowKind row;
  row.law.rated = l_per_h / 3.6e6;
  row.law.rated_at = 10;
  row.law.exponent = compensating ? 0 : 0.5;
  row.law.compensating = compensating;
  row.law.least = compensating ? 7 : 0;
  row.spacing = spacing;
  row.inside = 0.0043;
  return row;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(row_lengths)

BOOST_AUTO_TEST_CASE(it_passes_and_one_more_does_not) {
  for (const bool compensating : {false, true}) {
    const int most = most_outlets(row(2, 0.15, compensating), 14, settings());
    BOOST_TEST(most > 10);
    BOOST_TEST(most < 200);
    BOOST_TEST(row_is_even(row(2, 0.15, compensating), most, 14, settings()));
    BOOST_TEST(!row_is_even(row(2, 0.15, compensating), most + 1, 14, settings()));
  }
}

BOOST_AUTO_TEST_CASE(it_grows_with_what_helps) {
  const int plain = most_outlets(row(2, 0.15), 14, settings());
  BOOST_TEST(most_outlets(row(1, 0.15), 14, settings()) > plain);      // less flow each
  BOOST_TEST(most_outlets(row(2, 0.30), 14, settings()) < plain);      // fewer outlets, yet
  BOOST_TEST(most_outlets(row(2, 0.30), 14, settings()) * 2 > plain);  // a longer row
  RowKind wide = row(2, 0.15);
  wide.inside = 0.0064;
  BOOST_TEST(most_outlets(wide, 14, settings()) > plain);
  RowKind climbing = row(2, 0.15);
  climbing.climb = 0.1;
  BOOST_TEST(most_outlets(climbing, 14, settings()) < plain);
  BOOST_TEST(most_outlets(row(2, 0.15, true), 20, settings()) > most_outlets(row(2, 0.15, true), 10, settings()));
}

BOOST_AUTO_TEST_CASE(no_pressure_is_no_row) {
  BOOST_TEST(most_outlets(row(2, 0.15), 0, settings()) == 0);
  BOOST_TEST(most_outlets(row(2, 0.15, true), 6, settings()) == 0);  // below the least working pressure
  RowKind none = row(0, 0.15);
  BOOST_TEST(most_outlets(none, 14, settings()) == 0);
}

BOOST_AUTO_TEST_CASE(there_is_a_longest_that_is_tried) {
  RowKind wide = row(0.01, 0.15);
  wide.inside = 0.02;
  BOOST_TEST(most_outlets(wide, 14, settings()) == kMostOutletsOfARow);
}

BOOST_AUTO_TEST_SUITE_END()
