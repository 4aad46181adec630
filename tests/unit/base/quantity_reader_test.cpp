#include <boost/test/unit_test.hpp>

#include "teetally/base/quantity.h"

namespace teetally {
namespace {

const BareUnits kNone;
const BareUnits kDeclared{"ft", "gph", "psi", "gal"};

std::int64_t tenths(std::string_view text, const BareUnits& bare = kNone) {
  const auto length = parse_length(text, bare);
  BOOST_REQUIRE_MESSAGE(length, text << ": " << length.error());
  return length->tenths_mm;
}

std::string complaint(std::string_view text, const BareUnits& bare = kNone) {
  const auto length = parse_length(text, bare);
  return length ? "read as " + std::to_string(length->tenths_mm) : length.error();
}

}  // namespace

BOOST_AUTO_TEST_SUITE(quantity_reader)

BOOST_AUTO_TEST_CASE(lengths_in_one_unit) {
  BOOST_TEST(tenths("1 in") == 254);
  BOOST_TEST(tenths("1 ft") == 3048);
  BOOST_TEST(tenths("1 yd") == 9144);
  BOOST_TEST(tenths("1 m") == 10000);
  BOOST_TEST(tenths("1 cm") == 100);
  BOOST_TEST(tenths("1 mm") == 10);
  BOOST_TEST(tenths("9.1 m") == 91000);
  BOOST_TEST(tenths("18ft") == 18 * 3048);
  BOOST_TEST(tenths("18 feet") == 18 * 3048);
  BOOST_TEST(tenths("3 Inches") == 3 * 254);
  BOOST_TEST(tenths("-3 in") == -3 * 254);
  BOOST_TEST(tenths("  2.5   m ") == 25000);
  BOOST_TEST(tenths(".5 in") == 127);
}

BOOST_AUTO_TEST_CASE(sums_and_fractions) {
  BOOST_TEST(tenths("5 ft 6 in") == 5 * 3048 + 6 * 254);
  BOOST_TEST(tenths("5' 6\"") == 5 * 3048 + 6 * 254);
  BOOST_TEST(tenths("5'6\"") == 5 * 3048 + 6 * 254);
  BOOST_TEST(tenths("5′ 6″") == 5 * 3048 + 6 * 254);
  BOOST_TEST(tenths("5ft6in") == 5 * 3048 + 6 * 254);
  BOOST_TEST(tenths("1 m 20 cm 5 mm") == 12050);
  BOOST_TEST(tenths("1/2 in") == 127);
  BOOST_TEST(tenths("6 1/2 in") == 6 * 254 + 127);
  BOOST_TEST(tenths("1-1/2 in") == 254 + 127);
  BOOST_TEST(tenths("5 ft 6 1/2 in") == 5 * 3048 + 6 * 254 + 127);
  BOOST_TEST(tenths("5' 6-1/2\"") == 5 * 3048 + 6 * 254 + 127);
  BOOST_TEST(tenths("½ in") == 127);
  BOOST_TEST(tenths("6½ in") == 6 * 254 + 127);
  BOOST_TEST(tenths("5 ft 6 ½ in") == 5 * 3048 + 6 * 254 + 127);
  BOOST_TEST(tenths("-5 ft 6 in") == -(5 * 3048 + 6 * 254));
}

BOOST_AUTO_TEST_CASE(rounding_is_to_the_nearest_unit_halves_away_from_zero) {
  BOOST_TEST(tenths("1/16 in") == 16);   // 15.875
  BOOST_TEST(tenths("3/16 in") == 48);   // 47.625
  BOOST_TEST(tenths("1/4 in") == 64);    // 63.5
  BOOST_TEST(tenths("-1/4 in") == -64);  // -63.5
  BOOST_TEST(tenths("0.04 mm") == 0);    // 0.4
  BOOST_TEST(tenths("0.049 cm") == 5);   // 4.9
  // The rounding is of the sum, not of its parts: 3048 / 3 + 254 / 3 = 1100.67.
  BOOST_TEST(tenths("1/3 ft") == 1016);
}

BOOST_AUTO_TEST_CASE(bare_numbers_mean_the_declared_unit) {
  BOOST_TEST(tenths("12", kDeclared) == 12 * 3048);
  BOOST_TEST(tenths("1/2", kDeclared) == 1524);
  BOOST_TEST(tenths("6 in", kDeclared) == 6 * 254);
  BOOST_TEST(tenths("0") == 0);
  BOOST_TEST(parse_flow("2", kDeclared)->nl_per_h == 2 * 3'785'411'784);
  BOOST_TEST(parse_volume("5", kDeclared)->ul == 18'927'059);
  BOOST_TEST(
      complaint("12") ==
      "'12' is not a length: it has no unit, and this file declares none for a bare number; write it like 5 ft 6 in");
  // In a file whose lengths are feet a bare wall thickness would be read as feet.
  BOOST_TEST(!parse_diameter("0.6", kDeclared));
  BOOST_TEST(parse_diameter("15.2", BareUnits{"mm", "", "", ""})->tenths_um == 152'000);
}

BOOST_AUTO_TEST_CASE(odd_numbers_are_errors_never_silence) {
  const auto says = [](std::string_view text, std::string_view part) {
    const std::string found = complaint(text, kDeclared);
    BOOST_TEST(found.find(part) != std::string::npos, text << " gives: " << found);
  };
  says("012", "'012' starts with a zero; write the number without it");
  says("012 ft", "'012' starts with a zero");
  says("0x1F", "'0x1F' is not a decimal number");
  says("0x1F ft", "'0x1F' is not a decimal number");
  says("1e3", "'1e3' has an exponent; write the number out");
  says("1e3 ft", "'1e3' has an exponent");
  says("1E-3 ft", "'1E-3' has an exponent");
  says(".inf", "not a length");
  says("nan", "not a length");
  says("~", "not a length");
  says("3,20 m", "'3,20' has a comma in it; use a point: 3.20");
  says("1,234 ft", "'1,234' has a comma in it; write it without: 1234");
  says("1,234.5 ft", "write it without: 1234.5");
  says("5. ft", "'5.' ends in a point; write 5");
  says("1.2.3 ft", "'1.2.3' is not a number");
  says("+5 ft", "a number is missing before '+5 ft'");
  says("--5 ft", "a number is missing before '-5 ft'");
  says("5 ft -6 in", "a number is missing before '-6 in'");
  says("", "nothing is given");
  says("   ", "nothing is given");
  says("ft", "a number is missing before 'ft'");
  says("1/0 in", "a fraction cannot have 0 below its stroke");
  says("1/2.5 in", "a fraction has whole numbers");
  says("1/ in", "unknown length unit");
  says("1/2/3 in", "unknown length unit");
  says("6 3/2 in", "a mixed number is a whole number and a fraction below one");
  says("6.5 1/2 in", "a mixed number is a whole number and a fraction below one");
  says("1/5000 in", "a fraction has at most 1000 below its stroke");
  says("5 ft 6", "a number in it has no unit");
  says("5 6 ft", "a number in it has no unit");
  says("6 in 5 ft", "each part of a sum has a smaller unit than the one before");
  says("5 ft 6 ft", "each part of a sum has a smaller unit than the one before");
  says("5.5 ft 6 in", "only its last number may have a fraction");
  says("1/2 ft 6 in", "only its last number may have a fraction");
  says("5 fet", "unknown length unit 'fet'; did you mean 'ft'? known units: ft, in, yd, m, cm and mm");
  says("5 parsecs", "unknown length unit 'parsecs'; known units: ft, in, yd, m, cm and mm");
  says("5 \x01", "\\u0001");
}

BOOST_AUTO_TEST_CASE(nothing_overflows) {
  const auto too_large = [](std::string_view text) {
    const std::string found = complaint(text, kDeclared);
    BOOST_TEST(found.find("too large") != std::string::npos, text << " gives: " << found);
  };
  too_large("999999999999 m");
  too_large("999999999999.999999999 yd");
  too_large("9999999999999 m");
  too_large("100001 m");
  too_large("99999999999999999999999999999999999999999999 ft");
  BOOST_TEST(tenths("100000 m") == 1'000'000'000);
  BOOST_TEST(!parse_pressure("999999999999.999999999 psi", kNone));
  BOOST_TEST(!parse_flow("999999999999.999999999 m3/h", kNone));
  BOOST_TEST(parse_length("1.0000000001 m", kNone).error().find("more than 9 decimals") != std::string::npos);
}

// Exact factors: NIST SP 811 (2008), appendix B.8 (inch, foot, US gallon); the psi from the exact pound-force
// 4.448 221 615 260 5 N and the exact inch.
BOOST_AUTO_TEST_CASE(flows_pressures_and_volumes) {
  BOOST_TEST(parse_flow("1 gph", kNone)->nl_per_h == 3'785'411'784);
  BOOST_TEST(parse_flow("0.5 GPH", kNone)->nl_per_h == 1'892'705'892);
  BOOST_TEST(parse_flow("1 gpm", kNone)->nl_per_h == 60 * 3'785'411'784);
  BOOST_TEST(parse_flow("2 l/h", kNone)->nl_per_h == 2'000'000'000);
  BOOST_TEST(parse_flow("2 L/h", kNone)->nl_per_h == 2'000'000'000);
  BOOST_TEST(parse_flow("1 l/min", kNone)->nl_per_h == 60'000'000'000);
  BOOST_TEST(parse_flow("3 gallons per hour", kNone)->nl_per_h == 3 * 3'785'411'784);
  BOOST_TEST(parse_flow("1 m³/h", kNone)->nl_per_h == 1'000'000'000'000);
  BOOST_TEST(parse_pressure("1 psi", kNone)->pa == 6895);
  BOOST_TEST(parse_pressure("25 psi", kNone)->pa == 172'369);
  BOOST_TEST(parse_pressure("100 psi", kNone)->pa == 689'476);
  BOOST_TEST(parse_pressure("1.7 bar", kNone)->pa == 170'000);
  BOOST_TEST(parse_pressure("172.5 kPa", kNone)->pa == 172'500);
  BOOST_TEST(parse_volume("5 gal", kNone)->ul == 18'927'059);
  BOOST_TEST(parse_volume("1 l", kNone)->ul == 1'000'000);
  BOOST_TEST(parse_volume("4 qt", kNone)->ul == parse_volume("1 gal", kNone)->ul);
  BOOST_TEST(parse_diameter("0.001 in", kNone)->tenths_um == 254);
  BOOST_TEST(parse_diameter("0.600 in", kNone)->tenths_um == 152'400);
  BOOST_TEST(parse_diameter("1/2 in", kNone)->tenths_um == 127'000);
  BOOST_TEST(parse_diameter("16 mm", kNone)->tenths_um == 160'000);
}

BOOST_AUTO_TEST_CASE(only_lengths_may_be_negative_or_sums) {
  BOOST_TEST(parse_pressure("-3 psi", kNone).error() == "'-3 psi' is negative; a pressure cannot be");
  BOOST_TEST(!parse_flow("-1 gph", kNone));
  BOOST_TEST(!parse_volume("-1 gal", kNone));
  BOOST_TEST(!parse_diameter("-1 in", kNone));
  BOOST_TEST(!parse_flow("1 gph 2 l/h", kNone));
  BOOST_TEST(parse_pressure("25 psy", kNone).error() ==
             "'25 psy' is not a pressure: unknown pressure unit 'psy'; did you mean 'psi'? known units: psi, bar, kPa, "
             "mbar and Pa; write it like 25 psi");
}

BOOST_AUTO_TEST_CASE(counts_and_numbers) {
  BOOST_TEST(parse_count("0").value() == 0);
  BOOST_TEST(parse_count(" 42 ").value() == 42);
  BOOST_TEST(parse_count("-7").value() == -7);
  BOOST_TEST(parse_count("2.0").error() == "'2.0' is not a whole number");
  BOOST_TEST(parse_count("012").error() == "'012' starts with a zero; write the number without it");
  BOOST_TEST(parse_count("08").error() == "'08' starts with a zero; write the number without it");
  BOOST_TEST(parse_count("0o17").error() == "'0o17' is not a decimal number; write it with the digits 0 to 9");
  BOOST_TEST(parse_count("").error() == "a number is missing");
  BOOST_TEST(parse_count("--1").error() == "'--1' is not a whole number; expected digits such as 12");
  BOOST_TEST(parse_count("three").error() == "'three' is not a whole number; expected digits such as 12");
  BOOST_TEST(parse_count("99999999999999999999").error() == "'99999999999999999999' is too large");
  BOOST_TEST(parse_count("1_000").error() == "'1_000' is not a number; expected digits such as 12 or 0.5");
  BOOST_TEST(parse_number("0.85").value() == 0.85);
  BOOST_TEST(parse_number("-3.5").value() == -3.5);
  BOOST_TEST(parse_number("0.1").value() == 0.1);
  BOOST_TEST(parse_number("123456.789").value() == 123456.789);
  BOOST_TEST(!parse_number("1e3"));
  BOOST_TEST(!parse_number(".inf"));
  BOOST_TEST(!parse_number("3,20"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
