// Fittings from geometry, one joint at a time. The pot at the far end keeps a design from being empty.
#include "places.h"
#include "unit/garden/laying.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

Garden garden_of(const std::string& lines, const Practice& practice = shipped_practice()) {
  const Laid laid = lay_out_text("lines:\n" + lines +
                                     "containers: [{name: pot, at: [[-3 ft, 1 ft]], emitter: {flow: 1 gph}, "
                                     "feed: start of trunk}]\n",
                                 practice);
  // The pot's feeder would start at the tap itself; it is led off an inch of line that every test starts with.
  require_clean(laid);
  return laid.garden;
}

const std::string kTrunk =
    "  - {name: lead, from: tap, size: 1/2 in, walk: [west 1 ft]}\n"
    "  - {name: trunk, from: 6 in along lead, size: 1/2 in, walk: [north 10 ft, north 10 ft]}\n";

}  // namespace

BOOST_AUTO_TEST_CASE(straight_on_is_no_fitting_and_one_piece) {
  const Garden garden = garden_of(kTrunk);
  BOOST_TEST(count(garden, Joint::tee) == 1);  // where the trunk leaves its lead
  BOOST_TEST(count(garden, Joint::elbow) == 0);
  BOOST_TEST(count(garden, Joint::end_closure) == 2);
  const auto on_trunk = [&](const Piece& piece) {
    return garden.runs[static_cast<std::size_t>(piece.run)].name == "trunk";
  };
  BOOST_TEST(std::count_if(garden.pieces.begin(), garden.pieces.end(), on_trunk) == 1);
}

BOOST_AUTO_TEST_CASE(a_sharp_turn_is_an_elbow_a_gentle_one_is_bent) {
  const Garden sharp = garden_of(kTrunk + "  - {name: a, from: end of trunk, size: 1/2 in, walk: [east 5 ft]}\n");
  BOOST_TEST(count(sharp, Joint::elbow) == 1);
  const Garden gentle =
      garden_of(kTrunk + "  - {name: a, from: end of trunk, size: 1/2 in, walk: [{to: [1 ft, 30 ft]}]}\n");
  BOOST_TEST(count(gentle, Joint::elbow) == 0);
  const Garden steep =
      garden_of(kTrunk + "  - {name: a, from: end of trunk, size: 1/2 in, walk: [north 5 ft rising 5 ft]}\n");
  BOOST_TEST(count(steep, Joint::elbow) == 1);  // 45 degrees, in height
}

BOOST_AUTO_TEST_CASE(small_tubing_needs_no_elbow) {
  const Garden garden =
      garden_of(kTrunk + "  - {name: a, from: end of trunk, size: 1/4 in, walk: [east 1 ft, north 1 ft]}\n");
  BOOST_TEST(count(garden, Joint::elbow) == 0);
  BOOST_TEST(count(garden, Joint::take_off) == 2);  // with the pot's
}

BOOST_AUTO_TEST_CASE(a_change_of_size_is_a_reducer) {
  const Garden garden = garden_of(kTrunk + "  - {name: a, from: end of trunk, size: 3/4 in, walk: [north 5 ft]}\n");
  BOOST_TEST(count(garden, Joint::straight) == 1);
  const Garden turned = garden_of(kTrunk + "  - {name: a, from: end of trunk, size: 3/4 in, walk: [east 5 ft]}\n");
  BOOST_TEST(count(turned, Joint::straight) == 1);
  BOOST_TEST(count(turned, Joint::elbow) == 1);
}

BOOST_AUTO_TEST_CASE(three_meet_in_a_tee_whose_run_is_the_straightest_pair) {
  const Garden garden = garden_of(kTrunk + "  - {name: a, from: 12 ft along trunk, size: 3/4 in, walk: [east 5 ft]}\n");
  BOOST_TEST(count(garden, Joint::tee) == 2);
  for (const Fitting& fitting : garden.fittings) {
    if (fitting.joint != Joint::tee || fitting.legs.size() != 3) continue;
    const double turn = turn_at(garden, fitting.node, fitting.legs[0], fitting.legs[1]);
    BOOST_TEST(turn < 1.0);
  }
  BOOST_TEST(count(garden, Joint::straight) == 0);  // the tee reduces
}

BOOST_AUTO_TEST_CASE(a_small_turn_counts_as_straight_on_where_it_saves_a_reducer) {
  // Straight on in another size; and 5.7 degrees aside in the same.
  const std::string fork = kTrunk +
                           "  - {name: a, from: end of trunk, size: 3/4 in, walk: [north 5 ft]}\n"
                           "  - {name: b, from: end of trunk, size: 1/2 in, walk: [{to: [0 ft, 25 ft]}]}\n";
  BOOST_TEST(count(garden_of(fork), Joint::straight) == 0);
  Practice strict = shipped_practice();
  strict.straight_within_degrees.value = 5;
  BOOST_TEST(count(garden_of(fork, strict), Joint::straight) == 1);
}

BOOST_AUTO_TEST_CASE(four_meet_in_a_cross_or_in_two_tees) {
  const std::string four = kTrunk +
                           "  - {name: a, from: 10 ft along trunk, size: 1/2 in, walk: [east 5 ft]}\n"
                           "  - {name: b, from: 10 ft along trunk, size: 1/2 in, walk: [west 5 ft]}\n";
  BOOST_TEST(count(garden_of(four), Joint::cross) == 1);
  Practice tees = shipped_practice();
  tees.four_way.value = "two tees";
  const Garden by_tees = garden_of(four, tees);
  BOOST_TEST(count(by_tees, Joint::cross) == 0);
  BOOST_TEST(count(by_tees, Joint::tee) == 3);
  // Crosses of unequal size are not made.
  const Garden unequal = garden_of(kTrunk +
                                   "  - {name: a, from: 10 ft along trunk, size: 3/4 in, walk: [east 5 ft]}\n"
                                   "  - {name: b, from: 10 ft along trunk, size: 1/2 in, walk: [west 5 ft]}\n");
  BOOST_TEST(count(unequal, Joint::cross) == 0);
  BOOST_TEST(count(unequal, Joint::tee) == 3);
}

BOOST_AUTO_TEST_CASE(a_loop_has_no_ends) {
  const Garden ring = garden_of(kTrunk +
                                "  - {name: ring, from: end of trunk, size: 1/2 in,\n"
                                "     walk: [east 5 ft, north 5 ft, west 5 ft, to start of ring]}\n");
  BOOST_TEST(count(ring, Joint::end_closure) == 1);  // the lead's
  BOOST_TEST(count(ring, Joint::elbow) == 3);
  BOOST_TEST(count(ring, Joint::tee) == 2);
  BOOST_TEST(pieces_length(ring).tenths_mm > feet(40).tenths_mm);
}

BOOST_AUTO_TEST_CASE(ends_within_the_tolerance_meet_and_others_do_not) {
  const Garden near = garden_of(kTrunk + "  - {name: a, points: [[-0.5, 20.03], [5, 20.03]], size: 1/2 in}\n");
  BOOST_TEST(count(near, Joint::elbow) == 1);
  const Laid far = lay_out_text(
      "lines:\n  - {name: trunk, from: tap, walk: [north 10 ft]}\n"
      "  - {name: a, points: [[1 in, 5 ft], [5 ft, 5 ft]]}\n"
      "containers: [{name: pot, at: [[-3 ft, 1 ft]], emitter: {flow: 1 gph}, feed: trunk}]\n");
  BOOST_TEST(has_slug(far.diagnostics, "garden/not-connected"));
}

BOOST_AUTO_TEST_CASE(crossing_high_above_is_not_reported) {
  const Laid laid = lay_out_text(
      "lines:\n  - {name: trunk, from: tap, walk: [east 30 ft]}\n"
      "  - {name: a, from: 3 ft along trunk, walk: [north 3 ft, up 3 ft, east 3 ft, south 9 ft]}\n"
      "containers: [{name: pots, at: [[1 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}]\n");
  require_clean(laid);
}

BOOST_AUTO_TEST_CASE(rows_of_the_headers_size_join_by_tees_and_an_elbow) {
  const Laid laid = lay_out_text(
      "lines: [{name: trunk, from: tap, size: 1/2 in, walk: [north 10 ft]}]\n"
      "beds: [{name: b, corner: [2 ft, 2 ft], size: [8 ft, 4 ft], rows: {count: 3}, header: west, header size: 1/2 "
      "in,\n"
      "  feed: trunk, emitter line: {size: 1/2 in, spacing: 12 in, flow: 0.6 gph}}]\n");
  require_clean(laid);
  // Fed straight in at the first row: row and header part there, again at the second, and the header turns into
  // the third. With the trunk's tee that is three.
  BOOST_TEST(count(laid.garden, Joint::tee) == 3);
  BOOST_TEST(count(laid.garden, Joint::elbow) == 1);
  BOOST_TEST(count(laid.garden, Joint::take_off) == 0);
  BOOST_TEST(count(laid.garden, Joint::flush_cap) == 3);
}

BOOST_AUTO_TEST_CASE(a_header_fed_in_the_middle_has_two_ends) {
  const std::string bed =
      "lines: [{name: trunk, from: tap, size: 1/2 in, walk: [north 10 ft]}]\n"
      "beds: [{name: b, corner: [2 ft, 2 ft], size: [8 ft, 4 ft], rows: {count: 4}, header: west, feed: trunk,\n"
      "  feed at: middle, emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}]\n";
  const Laid laid = lay_out_text(bed);
  require_clean(laid);
  BOOST_TEST(count(laid.garden, Joint::tee) == 2);
  BOOST_TEST(count(laid.garden, Joint::end_closure) == 1 + 2);
  BOOST_TEST(count(laid.garden, Joint::take_off) == 4);
}

BOOST_AUTO_TEST_CASE(sizing_a_run_asks_for_a_reducer) {
  Garden garden = garden_of(kTrunk + "  - {name: a, from: end of trunk, walk: [north 5 ft]}\n");
  garden.runs[2].size = "1/2 in";
  fit_out(garden, shipped_practice());
  BOOST_TEST(count(garden, Joint::straight) == 0);
  garden.runs[2].size = "3/4 in";
  fit_out(garden, shipped_practice());
  BOOST_TEST(count(garden, Joint::straight) == 1);
}

BOOST_AUTO_TEST_CASE(what_is_on_site_is_no_part) {
  const std::string bed_and_pots =
      "beds: [{name: b, corner: [2 ft, 2 ft], size: [8 ft, 4 ft], rows: {count: 2}, header: west, header size: 1/2 "
      "in,\n"
      "  feed: trunk, emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}]\n";
  const Laid laid = lay_out_text(
      "lines:\n"
      "  - {name: trunk, from: tap, size: 1/2 in, walk: [north 10 ft, east 1 ft], existing: yes}\n"
      "  - {name: more, from: end of trunk, size: 1/2 in, walk: [east 9 ft]}\n" +
      bed_and_pots);
  require_clean(laid);
  const Garden& garden = laid.garden;
  BOOST_TEST(count(garden, Joint::head) == 0);         // the trunk's adapter is there
  BOOST_TEST(count(garden, Joint::elbow) == 0 + 1);    // the trunk's is there, the bed's own is new
  BOOST_TEST(count(garden, Joint::straight) == 1);     // new tubing goes on from old
  BOOST_TEST(count(garden, Joint::tee) == 1);          // the bed's, on the old trunk
  BOOST_TEST(count(garden, Joint::end_closure) == 2);  // the new line's and the header's
  for (const Piece& piece : garden.pieces) BOOST_TEST(!garden.runs[static_cast<std::size_t>(piece.run)].existing);
}

BOOST_AUTO_TEST_CASE(zones_of_one_line_have_valves_and_one_system) {
  const Laid laid = lay_out_text(
      "lines:\n"
      "  - {name: shared, from: tap, walk: [north 10 ft]}\n"
      "  - {name: a, from: end of shared, walk: [east 9 ft]}\n"
      "  - {name: b, from: end of shared, walk: [west 9 ft]}\n"
      "containers:\n"
      "  - {name: x, at: [[8 ft, 12 ft]], emitter: {flow: 1 gph}, feed: a}\n"
      "  - {name: y, at: [[-8 ft, 12 ft]], emitter: {flow: 1 gph}, feed: b}\n"
      "zones: {one: [x], two: [y]}\n");
  require_clean(laid);
  const Garden& garden = laid.garden;
  BOOST_REQUIRE(garden.zones.size() == 2u);
  const auto is_valve = [](const Device& device) { return device.part.kind == "zone valve"; };
  BOOST_TEST(std::count_if(garden.devices.begin(), garden.devices.end(), is_valve) == 2);
  BOOST_TEST(garden.elements[1].zone == 0);
  BOOST_TEST(garden.elements[2].zone == 1);
  for (const int system : garden.system_of_leg) BOOST_TEST(system == 0);
}

BOOST_AUTO_TEST_CASE(zones_from_the_tap_are_systems_of_their_own) {
  const Laid laid = lay_out_text(
      "lines:\n"
      "  - {name: a, from: tap, walk: [east 9 ft]}\n"
      "  - {name: b, from: tap, walk: [west 9 ft]}\n"
      "containers:\n"
      "  - {name: x, at: [[8 ft, 2 ft]], emitter: {flow: 1 gph}, feed: a}\n"
      "  - {name: y, at: [[-8 ft, 2 ft]], emitter: {flow: 1 gph}, feed: b}\n"
      "zones: {one: [x], two: [y]}\n");
  require_clean(laid);
  BOOST_TEST(count(laid.garden, Joint::head) == 2);
  BOOST_TEST(*std::max_element(laid.garden.system_of_leg.begin(), laid.garden.system_of_leg.end()) == 1);
}

BOOST_AUTO_TEST_CASE(pieces_add_up_to_the_legs) {
  for (const char* name : {"two-beds", "balcony", "tape-rows", "mixed-slope", "metric-plot", "five-by-two"}) {
    Diagnostics diagnostics;
    const Source source =
        read_source(std::string(TEETALLY_SOURCE_DIR "/tests/gardens/") + name + "/garden.yaml", diagnostics);
    const Laid laid = lay_out_source(source, shipped_practice());
    Length legs;
    for (const Leg& leg : laid.garden.legs) legs += leg.length;
    BOOST_TEST(pieces_length(laid.garden).tenths_mm == legs.tenths_mm, name);
  }
}

BOOST_AUTO_TEST_CASE(more_than_a_garden_is_refused_not_laid_out) {
  const Laid laid = lay_out_text(
      "lines: [{name: trunk, from: tap, walk: [north 10 ft]}]\n"
      "beds: [{name: b, corner: [2 ft, 2 ft], size: [8 ft, 60 ft], rows: {count: 900}, header: west, feed: trunk,\n"
      "  emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}, repeat: {count: 100, step: north 70 ft}}]\n");
  BOOST_TEST(has_slug(laid.diagnostics, "garden/too-large"));
}
