// Counts of published kits and beds. Sijali, "Drip irrigation: options for smallholder farmers", RELMA Technical
// Handbook 24, 2001 (as reproduced on Akvopedia): the drum kit for five beds of 1 m by 15 m with two lines each lists
// 4 tees, 3 bends, 5 plugs, 10 connectors, and plants for 250, 500 or 1,500 places 60, 30 or 10 cm apart; the bucket
// kit has 2 lines of 15 m (or 4 of 7.5 m), and 100 watering points on 30 m at 30 cm. UC Santa Cruz, "Teaching Organic
// Farming and Gardening", unit 1.5, exercise 3: a bed of 25 ft by 4 ft with 4 tape lines and outlets 8 in apart.
#include "places.h"
#include "unit/garden/laying.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

Laid five_by_two(const std::map<std::string, std::string>& set = {}) {
  Diagnostics diagnostics;
  const Source source = read_source(TEETALLY_SOURCE_DIR "/tests/gardens/five-by-two/garden.yaml", diagnostics);
  BOOST_REQUIRE(source);
  return lay_out_source(source, shipped_practice(), set);
}

}  // namespace

BOOST_AUTO_TEST_CASE(five_beds_of_two_lines) {
  const Laid laid = five_by_two();
  require_clean(laid);
  const Garden& garden = laid.garden;
  BOOST_TEST(count(garden, Joint::tee) == 4);
  BOOST_TEST(count(garden, Joint::elbow) == 3);        // the last outlet, and two on the way down from the tap
  BOOST_TEST(count(garden, Joint::end_closure) == 5);  // the plugs: one at each outlet's end
  BOOST_TEST(count(garden, Joint::take_off) == 10);    // connectors
  BOOST_TEST(count(garden, Joint::straight) == 10);    // a lead goes on as a row
  BOOST_TEST(count(garden, Joint::flush_cap) == 10);   // line ends: derived from the layout, the list is cut off
  BOOST_TEST(tubing(garden, LegRole::row).tenths_mm == metres(150).tenths_mm);
  // Every row is led off as one piece, every lead, and the manifold is cut at each tee and bend.
  BOOST_TEST(garden.pieces.size() == 10u + 10u + 7u + 5u);
}

BOOST_AUTO_TEST_CASE(plants_of_five_beds) {
  BOOST_TEST(emitters(five_by_two({{"spacing", "60 cm"}}).garden) == 250);
  BOOST_TEST(emitters(five_by_two({{"spacing", "30 cm"}}).garden) == 500);
  BOOST_TEST(emitters(five_by_two({{"spacing", "10 cm"}}).garden) == 1500);
}

BOOST_AUTO_TEST_CASE(bucket_kit) {
  for (const auto& [count_of_rows, length] : {std::pair{2, "15"}, std::pair{4, "7.5"}}) {
    const Laid laid =
        lay_out_source(source_from_text("garden.yaml",
                                        "teetally: design 1\nunits: {length: m, flow: l/h}\n"
                                        "source: {name: bucket, thread: 3/4 in hose, at: [0, 0, 1]}\n"
                                        "lines: [{name: drop, from: bucket, walk: [down 1]}]\n"
                                        "tape rows: [{name: rows, start: [0.2, 0], direction: east, length: " +
                                            std::string(length) + ", count: " + std::to_string(count_of_rows) +
                                            ", spacing: 50 cm, toward: north, feed: end of drop,\n"
                                            "  tape: {size: 5/8 in, spacing: 30 cm, flow: 1 l/h}}]\n"),
                       shipped_practice());
    require_clean(laid);
    BOOST_TEST(tubing(laid.garden, LegRole::tape).tenths_mm == metres(30).tenths_mm);
    BOOST_TEST(emitters(laid.garden) == 100);
    BOOST_TEST(count(laid.garden, Joint::tape_start) == count_of_rows);
    BOOST_TEST(count(laid.garden, Joint::flush_cap) == count_of_rows);
  }
}

BOOST_AUTO_TEST_CASE(a_bed_of_four_tape_lines) {
  const Laid laid = lay_out_text(
      "lines: [{name: trunk, from: tap, walk: [north 10 ft]}]\n"
      "tape rows: [{name: bed, start: [1 ft, 2 ft], direction: east, length: 25 ft, count: 4, spacing: 1 ft,\n"
      "  toward: north, feed: trunk, tape: {size: 5/8 in, spacing: 8 in, flow: 0.296 gph}}]\n");
  require_clean(laid);
  BOOST_TEST(tubing(laid.garden, LegRole::tape).tenths_mm == feet(100).tenths_mm);
  // The exercise leaves 37.5 on a line and 150 in all; whole outlets are 37 and 148, and one more at each start
  // is 38 and 152.
  BOOST_TEST(emitters(laid.garden) == 148);
  Practice from_start = shipped_practice();
  from_start.emitter_count_rule.value = "from start";
  const Laid other = lay_out_text(
      "lines: [{name: trunk, from: tap, walk: [north 10 ft]}]\n"
      "tape rows: [{name: bed, start: [1 ft, 2 ft], direction: east, length: 25 ft, count: 4, spacing: 1 ft,\n"
      "  toward: north, feed: trunk, tape: {size: 5/8 in, spacing: 8 in, flow: 0.296 gph}}]\n",
      from_start);
  BOOST_TEST(emitters(other.garden) == 152);
}
