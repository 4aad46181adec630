#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <random>

#include "teetally/base/quantity.h"

namespace teetally {
namespace {

const BareUnits kNone;

std::string us(std::string_view length) { return to_text(parse_length(length, kNone).value(), UnitSystem::us); }
std::string metric(std::string_view length) { return to_text(parse_length(length, kNone).value(), UnitSystem::metric); }

}  // namespace

BOOST_AUTO_TEST_SUITE(quantity_text)

BOOST_AUTO_TEST_CASE(lengths_in_feet_and_inches) {
  BOOST_TEST(us("5 ft 6 1/2 in") == "5 ft 6 1/2 in");
  BOOST_TEST(us("12 in") == "1 ft");
  BOOST_TEST(us("18 in") == "1 ft 6 in");
  BOOST_TEST(us("1/2 in") == "1/2 in");
  BOOST_TEST(us("8/16 in") == "1/2 in");
  BOOST_TEST(us("3/16 in") == "3/16 in");
  BOOST_TEST(us("1 ft 1/4 in") == "1 ft 1/4 in");
  BOOST_TEST(us("0 ft") == "0 in");
  BOOST_TEST(us("-3 in") == "-3 in");
  BOOST_TEST(us("-5 ft 6 in") == "-5 ft 6 in");
  BOOST_TEST(us("84 ft 6 in") == "84 ft 6 in");
  // Carries: 11.99 in is nearer to a foot than to 11 15/16 in.
  BOOST_TEST(us("11.99 in") == "1 ft");
  BOOST_TEST(us("0.01 in") == "0 in");
  BOOST_TEST(us("-0.01 in") == "0 in");
  BOOST_TEST(us("9.1 m") == "29 ft 10 1/4 in");
}

BOOST_AUTO_TEST_CASE(lengths_in_metres) {
  BOOST_TEST(metric("5 ft 6 1/2 in") == "1.69 m");
  BOOST_TEST(metric("2 m") == "2 m");
  BOOST_TEST(metric("9.1 m") == "9.1 m");
  BOOST_TEST(metric("30 cm") == "30 cm");
  BOOST_TEST(metric("305 mm") == "30.5 cm");
  BOOST_TEST(metric("-25 cm") == "-25 cm");
  BOOST_TEST(metric("0 m") == "0 cm");
}

BOOST_AUTO_TEST_CASE(other_quantities) {
  const auto flow = [](std::string_view text, UnitSystem units) { return to_text(*parse_flow(text, kNone), units); };
  const auto pressure = [](std::string_view text, UnitSystem units) {
    return to_text(*parse_pressure(text, kNone), units);
  };
  BOOST_TEST(flow("0.5 gph", UnitSystem::us) == "0.5 gph");
  BOOST_TEST(flow("0.5 gph", UnitSystem::metric) == "1.9 l/h");
  BOOST_TEST(flow("0.42 gph", UnitSystem::us) == "0.42 gph");
  BOOST_TEST(flow("2.25 l/h", UnitSystem::metric) == "2.25 l/h");
  BOOST_TEST(flow("5 gpm", UnitSystem::us) == "300 gph");
  BOOST_TEST(flow("0.1 l/h", UnitSystem::us) == "0.03 gph");
  BOOST_TEST(pressure("25 psi", UnitSystem::us) == "25 psi");
  BOOST_TEST(pressure("25 psi", UnitSystem::metric) == "1.7 bar");
  BOOST_TEST(pressure("10 psi", UnitSystem::metric) == "0.69 bar");
  BOOST_TEST(pressure("1.7 bar", UnitSystem::us) == "24.7 psi");
  BOOST_TEST(to_text(*parse_volume("5 gal", kNone), UnitSystem::us) == "5 gal");
  BOOST_TEST(to_text(*parse_volume("5 gal", kNone), UnitSystem::metric) == "18.9 l");
  BOOST_TEST(to_text(*parse_diameter("0.6 in", kNone), UnitSystem::us) == "0.600 in");
  BOOST_TEST(to_text(*parse_diameter("0.6 in", kNone), UnitSystem::metric) == "15.2 mm");
}

// What a person wrote comes back as it was written.
BOOST_AUTO_TEST_CASE(whole_and_half_psi_print_as_they_were_written) {
  for (int half = 1; half <= 400; ++half) {
    const std::string number = std::to_string(half / 2) + (half % 2 == 0 ? "" : ".5");
    const auto pressure = parse_pressure(number + " psi", kNone);
    BOOST_REQUIRE(pressure.has_value());
    BOOST_TEST(to_text(*pressure, UnitSystem::us) == number + " psi");
  }
}

BOOST_AUTO_TEST_CASE(hundredths_of_every_unit_print_as_they_were_written) {
  std::mt19937 random(811);
  for (int i = 0; i < 3000; ++i) {
    const auto hundredths = random() % 100000 + 1;
    std::string number = std::to_string(hundredths / 100);
    if (hundredths % 100 != 0) number += hundredths % 100 < 10 ? ".0" : ".";
    if (hundredths % 100 != 0) number += std::to_string(hundredths % 100);
    if (hundredths % 100 != 0 && number.back() == '0') number.pop_back();
    BOOST_REQUIRE_EQUAL(to_text(*parse_flow(number + " gph", kNone), UnitSystem::us), number + " gph");
    BOOST_REQUIRE_EQUAL(to_text(*parse_flow(number + " l/h", kNone), UnitSystem::metric), number + " l/h");
    BOOST_REQUIRE_EQUAL(to_text(*parse_pressure(number + " psi", kNone), UnitSystem::us), number + " psi");
    BOOST_REQUIRE_EQUAL(to_text(*parse_pressure(number + " bar", kNone), UnitSystem::metric), number + " bar");
    BOOST_REQUIRE_EQUAL(to_text(*parse_volume(number + " gal", kNone), UnitSystem::us), number + " gal");
  }
}

// A sixteenth of an inch is 15.875 tenths of a millimetre: a printed length is at most half of that off, and
// printing what was printed changes nothing.
BOOST_AUTO_TEST_CASE(printed_lengths_read_back_within_their_precision) {
  std::mt19937 random(16);
  for (int i = 0; i < 5000; ++i) {
    const Length length{static_cast<std::int64_t>(random() % 2'000'000) - 1'000'000};
    for (const auto& [units, off] : {std::pair{UnitSystem::us, 9}, std::pair{UnitSystem::metric, 50}}) {
      const std::string text = to_text(length, units);
      const auto back = parse_length(text, kNone);
      BOOST_REQUIRE_MESSAGE(back, text);
      BOOST_REQUIRE_MESSAGE(std::abs((*back - length).tenths_mm) <= off, text);
      BOOST_REQUIRE_EQUAL(to_text(*back, units), text);
    }
  }
}

BOOST_AUTO_TEST_CASE(computed_flows_round_to_the_nearest_unit_kept) {
  BOOST_TEST(flow_from_m3_per_s(in_m3_per_s(Flow{3'785'411'784})).nl_per_h == 3'785'411'784);
  BOOST_TEST(flow_from_m3_per_s(0.0).nl_per_h == 0);
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
