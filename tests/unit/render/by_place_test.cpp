// A takeoff by place: nothing is lost and nothing is added.
#include "render/takeoff/by_place.h"

#include <boost/test/unit_test.hpp>
#include <map>

using namespace teetally;

namespace {

Reason reason(ReasonClass reason_class, std::string element, std::string where, std::int64_t amount, int line) {
  static const Source kFile = source_from_text("garden.yaml", "");
  Reason made{reason_class, std::move(element), "rule", std::move(where), amount, {}};
  if (line > 0) made.place = {kFile, line, 1};
  return made;
}

Takeoff takeoff() {
  Need tee;
  tee.id = "N02";
  tee.part.kind = "tee";
  tee.reasons = {reason(ReasonClass::design, "bed 'b'", "trunk at 9 ft", 1, 9),
                 reason(ReasonClass::design, "bed 'a'", "trunk at 3 ft", 1, 5),
                 reason(ReasonClass::design, "bed 'a'", "trunk at 4 ft", 3, 5),
                 reason(ReasonClass::spare, "", "", 1, 0), reason(ReasonClass::on_site, "", "", -2, 2)};
  Need tubing;
  tubing.id = "N01";
  tubing.part.kind = "supply tubing";
  tubing.by_length = true;
  tubing.reasons = {reason(ReasonClass::design, "bed 'a'", "trunk", 500, 5),
                    reason(ReasonClass::design, "bed 'b'", "trunk, left", 400, 9),
                    reason(ReasonClass::waste, "", "", 54, 0)};
  tubing.pieces = {{Length{500}, "trunk, from tap to end", false, false},
                   {Length{400}, "trunk, left, from tee to end", false, false}};
  Takeoff all;
  all.needs = {tubing, tee};
  for (Need& need : all.needs) {
    for (const Reason& one : need.reasons) need.amount += one.amount;
  }
  return all;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(placing)

BOOST_AUTO_TEST_CASE(amounts_add_up_to_the_needs) {
  const Takeoff all = takeoff();
  const PlacedTakeoff placed = by_place(all);
  std::map<std::string, std::int64_t> sums;
  for (const GardenPlace& place : placed.places) {
    for (const PlacedPart& part : place.parts) sums[part.need->id] += part.amount;
  }
  for (const PlacedPart& part : placed.besides) sums[part.need->id] += part.amount;
  for (const Need& need : all.needs) BOOST_TEST(sums[need.id] == need.amount);
}

BOOST_AUTO_TEST_CASE(places_come_in_the_order_of_the_file) {
  const Takeoff all = takeoff();  // what is placed points into it
  const PlacedTakeoff placed = by_place(all);
  BOOST_REQUIRE_EQUAL(placed.places.size(), 2u);
  BOOST_TEST(placed.places[0].name == "bed 'a'");
  const PlacedPart& tee = placed.places[0].parts.at(1);
  BOOST_TEST(tee.amount == 4);
  BOOST_TEST(tee.spots == (std::vector<std::string>{"trunk at 3 ft", "3 at trunk at 4 ft"}),
             boost::test_tools::per_element());
}

// A run may be called like the beginning of another.
BOOST_AUTO_TEST_CASE(a_piece_goes_to_one_place) {
  const Takeoff all = takeoff();  // what is placed points into it
  const PlacedTakeoff placed = by_place(all);
  BOOST_REQUIRE_EQUAL(placed.places[0].parts[0].pieces.size(), 1u);
  BOOST_TEST(placed.places[0].parts[0].pieces[0]->length.tenths_mm == 500);
  BOOST_REQUIRE_EQUAL(placed.places[1].parts[0].pieces.size(), 1u);
  BOOST_TEST(placed.places[1].parts[0].pieces[0]->length.tenths_mm == 400);
}

BOOST_AUTO_TEST_SUITE_END()
