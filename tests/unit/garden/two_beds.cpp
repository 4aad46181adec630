// The agreed example garden, counted by hand.
#include "places.h"
#include "unit/garden/laying.h"

using namespace teetally;
using namespace teetally::testing;

BOOST_AUTO_TEST_CASE(two_beds_and_three_pots) {
  Diagnostics diagnostics;
  const Source source = read_source(TEETALLY_SOURCE_DIR "/tests/gardens/two-beds/garden.yaml", diagnostics);
  BOOST_REQUIRE(source);
  const Laid laid = lay_out_source(source, shipped_practice());
  require_clean(laid);
  const Garden& garden = laid.garden;
  // The trunk turns at the foot of the tap and at the corner; each riser turns at the wall, at the rim and into
  // the header.
  BOOST_TEST(count(garden, Joint::elbow) == 2 + 2 * 3);
  BOOST_TEST(count(garden, Joint::tee) == 2);               // one for each bed
  BOOST_TEST(count(garden, Joint::end_closure) == 1 + 2);   // the trunk and two headers
  BOOST_TEST(count(garden, Joint::take_off) == 3 + 4 + 3);  // rows and pots
  BOOST_TEST(count(garden, Joint::flush_cap) == 3 + 4);
  BOOST_TEST(count(garden, Joint::head) == 1);
  BOOST_TEST(count(garden, Joint::cross) == 0);
  BOOST_TEST(garden.devices.size() == 2 + 3);  // two valves, three emitters
  // Rows start 3 in from the header's end and stop 3 in from the other: 11 ft 6 in, so 11 emitters 12 in apart.
  BOOST_TEST(emitters(garden) == 7 * 11 + 3);
  BOOST_TEST(tubing(garden, LegRole::row).tenths_mm == (feet(11) + inches(6)).tenths_mm * 7);
}
