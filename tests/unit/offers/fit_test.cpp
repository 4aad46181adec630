// Which items fit under which choice of tubing.
#include <boost/test/unit_test.hpp>

#include "unit/offers/offer_case.h"

using namespace offer_case;

namespace {

const std::string kTee = "{kind: tee, size: 1/2 in, branch size: 1/2 in}";
const std::string kHalf = "{kind: supply tubing, size: 1/2 in}";

// Two half inches, one quarter inch.
const std::string kTubing =
    "items:\n"
    "  - {sku: P6, part: {kind: supply tubing, size: 1/2 in}, inside: 0.600 in, outside: 0.700 in, "
    "packs: [{length: 100 ft, price: 14}]}\n"
    "  - {sku: P5, part: {kind: supply tubing, size: 1/2 in}, inside: 0.520 in, outside: 0.620 in, "
    "packs: [{length: 100 ft, price: 12}]}\n"
    "  - {sku: Q, part: {kind: feeder tubing, size: 1/4 in}, inside: 0.170 in, outside: 0.250 in, "
    "packs: [{length: 100 ft, price: 8}]}\n";

std::string tee(const std::string& sku, const std::string& grips) {
  return "  - {sku: " + sku + ", part: " + kTee + ", grips: " + grips + ", price: 1}\n";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(fit)

BOOST_AUTO_TEST_CASE(families_are_those_of_the_tubing_on_offer_smallest_first) {
  const auto book = offers(takeoff({"1/2 in", "1/4 in"}, {tubing(kHalf, 0, feet(10)),
                                                          tubing("{kind: feeder tubing, size: 1/4 in}", 1, feet(1))}),
                           {catalog("a", kTubing)});
  BOOST_REQUIRE(book.systems.size() == 2u);
  BOOST_REQUIRE(book.systems[0].families.size() == 2u);
  BOOST_TEST(book.systems[0].families[0].inside.tenths_um == 520 * 254);
  BOOST_TEST(book.systems[0].families[1].outside.tenths_um == 700 * 254);
  BOOST_TEST(book.systems[1].families.size() == 1u);
  BOOST_TEST(servings(book, 0) == "P6(0:1) P5(0:0)");
  BOOST_TEST(servings(book, 1) == "Q(1:0)");
}

BOOST_AUTO_TEST_CASE(a_fitting_serves_the_families_its_ends_grip) {
  const auto items = kTubing + tee("BARB6", "{inside: 0.600 in}") + tee("BARB5", "{inside: 0.520 in}") +
                     tee("PRESS", "{outside: 0.690 in to 0.710 in}") + tee("ANY", "{outside: [0.620 in, 0.700 in]}") +
                     tee("NONE", "{inside: 0.615 in}") +
                     tee("MIXED", "[{inside: 0.520 in}, {inside: 0.520 in}, {inside: 0.600 in}]");
  const auto book =
      offers(takeoff({"1/2 in"}, {tubing(kHalf, 0, feet(10)), need(kTee, {0, 0, 0})}), {catalog("a", items)});
  BOOST_TEST(servings(book, 1) == "BARB6(0:1) BARB5(0:0) PRESS(0:1) ANY(0:0,1)");
}

BOOST_AUTO_TEST_CASE(the_ends_of_a_reducing_tee_belong_to_their_systems) {
  const auto items = kTubing +
                     "  - {sku: R, part: {kind: tee, size: 1/2 in, branch size: 1/4 in}, "
                     "grips: [{inside: 0.520 in}, {inside: 0.520 in}, {inside: 0.155 in to 0.175 in}], price: 1}\n"
                     "  - {sku: S, part: {kind: tee, size: 1/2 in, branch size: 1/4 in}, "
                     "grips: [{inside: 0.520 in}, {inside: 0.520 in}, {inside: 0.160 in}], price: 1}\n";
  const auto book =
      offers(takeoff({"1/2 in", "1/4 in"},
                     {tubing(kHalf, 0, feet(10)), tubing("{kind: feeder tubing, size: 1/4 in}", 1, feet(1)),
                      need("{kind: tee, size: 1/2 in, branch size: 1/4 in}", {0, 0, 1})}),
             {catalog("a", items)});
  BOOST_TEST(servings(book, 2) == "R(0:0 1:0)");
}

// A coupling between two systems, one end for each family: it may be put in either way round, and only so. The
// two ways are not "any family here, any family there".
BOOST_AUTO_TEST_CASE(ends_that_interchange_give_one_serving_for_each_way_round) {
  const auto items = kTubing +
                     "  - {sku: J, part: {kind: coupling, size: 1/2 in}, "
                     "grips: [{inside: 0.520 in}, {inside: 0.600 in}], price: 1}\n"
                     "  - {sku: K, part: {kind: coupling, size: 1/2 in}, "
                     "grips: [{inside: 0.520 in to 0.600 in}, {inside: 0.600 in}], price: 1}\n";
  const auto book =
      offers(takeoff({"1/2 in, zone 'a'", "1/2 in, zone 'b'"},
                     {tubing(kHalf, 0, feet(10)), tubing(kHalf, 1, feet(10)),
                      need("{kind: coupling, size: 1/2 in}", {0, 1}), need("{kind: coupling, size: 1/2 in}", {0, 0})}),
             {catalog("a", items)});
  BOOST_TEST(servings(book, 2) == "J(0:0 1:1) J(0:1 1:0) K(0:0,1 1:1) K(0:1 1:0,1)");
  BOOST_TEST(servings(book, 3) == "K(0:1)");
}

// Zone 'b' takes one family only: turned round, the coupling fits less and nothing new.
BOOST_AUTO_TEST_CASE(a_way_round_that_allows_less_than_another_is_left_out) {
  const std::string line = "{kind: emitter line, size: 1/2 in, spacing: 12 in, flow: 0.5 gph}";
  const auto items = kTubing +
                     "  - {sku: E, part: {kind: emitter line, size: 1/2 in, spacing: 12 in, flow: 0.5 gph, "
                     "compensating: no}, inside: 0.600 in, outside: 0.700 in, packs: [{length: 100 ft, price: 20}]}\n"
                     "  - {sku: K, part: {kind: coupling, size: 1/2 in}, "
                     "grips: [{inside: 0.520 in to 0.600 in}, {inside: 0.600 in}], price: 1}\n";
  const auto book = offers(
      takeoff({"1/2 in, zone 'a'", "1/2 in, zone 'b'"},
              {tubing(kHalf, 0, feet(10)), tubing(line, 1, feet(10)), need("{kind: coupling, size: 1/2 in}", {0, 1})}),
      {catalog("a", items)});
  BOOST_TEST(servings(book, 2) == "K(0:0,1 1:0)");
}

BOOST_AUTO_TEST_CASE(a_coil_as_long_as_the_longest_piece_will_do) {
  const auto served = [](Length piece) {
    return servings(offers(takeoff({"1/2 in"}, {tubing(kHalf, 0, piece)}), {catalog("a", kTubing)}), 0);
  };
  BOOST_TEST(served(feet(100)) == "P6(0:1) P5(0:0)");
  BOOST_TEST(served(feet(100) + Length{1}) == "");
}

BOOST_AUTO_TEST_CASE(no_systems_no_conditions) {
  const auto book = offers(takeoff({}, {need(kTee)}), {catalog("a", kTubing + tee("NONE", "{inside: 0.615 in}"))});
  BOOST_TEST(servings(book, 0) == "NONE()");
  BOOST_TEST(book.takeoff.cautions.empty());
}

BOOST_AUTO_TEST_CASE(fittings_for_tubing_that_is_not_bought_come_with_a_caution) {
  const auto book = offers(takeoff({"1/2 in"}, {need(kTee, {0, 0, 0})}),
                           {catalog("a", kTubing + tee("BARB6", "{inside: 0.600 in}"))});
  BOOST_TEST(servings(book, 0) == "BARB6()");
  BOOST_REQUIRE(book.takeoff.cautions.size() == 1u);
  BOOST_TEST(book.takeoff.cautions[0].find("1/2 in") != std::string::npos);
}

// A family that only the feeder tubing has is kept: whether the other tubing of the system can follow is for the
// purchase to find out.
BOOST_AUTO_TEST_CASE(families_of_all_tubing_of_a_system_are_kept) {
  const auto items = kTubing +
                     "  - {sku: L, part: {kind: emitter line, size: 1/4 in, spacing: 12 in, flow: 0.5 gph, "
                     "compensating: no}, inside: 0.160 in, outside: 0.240 in, packs: [{length: 100 ft, price: 8}]}\n";
  const auto book =
      offers(takeoff({"1/4 in"}, {tubing("{kind: feeder tubing, size: 1/4 in}", 0, feet(1)),
                                  tubing("{kind: emitter line, size: 1/4 in, spacing: 12 in}", 0, feet(1))}),
             {catalog("a", items)});
  BOOST_TEST(book.systems[0].families.size() == 2u);
  BOOST_TEST(servings(book, 0) == "Q(0:1)");
  BOOST_TEST(servings(book, 1) == "L(0:0)");
}

BOOST_AUTO_TEST_SUITE_END()
