#include "teetally/base/as_written.h"

#include <boost/test/unit_test.hpp>

#include "teetally/base/vocabulary.h"

namespace teetally {
namespace {

std::string of_length(const std::string& text) {
  return as_written(number_value(Dimension::length, parse_length(text, {})->tenths_mm));
}

AttributeValue pressure(const std::string& text) {
  return number_value(Dimension::pressure, parse_pressure(text, {})->pa);
}

bool regulator_serves(const std::string& wanted, const std::string& item) {
  const Vocabulary vocabulary = shipped_vocabulary();
  const PartSpec need{"pressure regulator", {{"pressure", pressure(wanted)}}};
  const PartSpec sold{"pressure regulator", {{"pressure", pressure(item)}}};
  return !mismatch(need, sold, vocabulary, UnitSystem::metric);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(written)

BOOST_AUTO_TEST_CASE(amounts_stand_in_the_units_they_were_written_in) {
  for (const char* text : {"50 ft", "1 ft", "500 ft", "2500 ft", "1250 ft", "25 m", "30 cm", "10 m", "2.25 m"}) {
    BOOST_TEST(of_length(text) == text);
  }
  for (const char* text : {"25 psi", "1.7 bar", "10 psi", "0.7 bar"}) BOOST_TEST(as_written(pressure(text)) == text);
  for (const char* text : {"0.5 gph", "2 l/h", "1.9 l/h", "480 gph"}) {
    BOOST_TEST(as_written(number_value(Dimension::flow, parse_flow(text, {})->nl_per_h)) == text);
  }
}

BOOST_AUTO_TEST_CASE(a_part_is_told_in_words_with_its_size_first) {
  PartSpec part{"pressure regulator", {{"thread", word_value("3/4 in BSP")}, {"pressure", pressure("1.7 bar")}}};
  BOOST_TEST(as_written(part) == "pressure regulator, pressure 1.7 bar, thread 3/4 in BSP");
  part = {"tee", {{"branch size", word_value("13 mm")}, {"size", word_value("16 mm")}}};
  BOOST_TEST(as_written(part) == "tee, size 16 mm, branch size 13 mm");
}

// Psi and bar as printed on regulators, each rounded by its maker; their steps are 5 psi.
BOOST_AUTO_TEST_CASE(a_pressure_may_be_rounded_but_not_another) {
  for (const auto& [psi, bar] : {std::pair{"10 psi", "0.7 bar"},
                                 {"15 psi", "1 bar"},
                                 {"20 psi", "1.4 bar"},
                                 {"25 psi", "1.7 bar"},
                                 {"30 psi", "2.1 bar"},
                                 {"40 psi", "2.8 bar"}}) {
    BOOST_TEST(regulator_serves(psi, bar), psi << " is " << bar);
    BOOST_TEST(regulator_serves(bar, psi), bar << " is " << psi);
  }
  BOOST_TEST(!regulator_serves("25 psi", "1.6 bar"));
  BOOST_TEST(!regulator_serves("25 psi", "1.8 bar"));
  BOOST_TEST(!regulator_serves("25 psi", "20 psi"));
  BOOST_TEST(!regulator_serves("25 psi", "30 psi"));
  BOOST_TEST(!regulator_serves("10 psi", "15 psi"));
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
