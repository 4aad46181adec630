// Density and viscosity of water. The figures for 20 C, 998.2 kg/m3 and 1.0016 mPa s, and for 25 C, 0.8900 mPa s, are
// the commonly tabulated ones (from memory; no table was read).
#include "hydraulics/water.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

using namespace teetally::hydraulics;

BOOST_AUTO_TEST_SUITE(water)

BOOST_AUTO_TEST_CASE(as_tabulated) {
  BOOST_TEST(std::abs(water_at(20).density - 998.2) < 0.05);
  BOOST_TEST(std::abs(water_at(20).viscosity * water_at(20).density - 1.0016e-3) < 1e-6);
  BOOST_TEST(std::abs(water_at(25).viscosity * water_at(25).density - 0.8900e-3) < 1e-6);
}

BOOST_AUTO_TEST_CASE(warmer_is_thinner) {
  for (double t = 1; t <= 60; ++t) BOOST_TEST(water_at(t).viscosity < water_at(t - 1).viscosity);
}

// 9.807 kPa per metre in the usual rounding.
BOOST_AUTO_TEST_CASE(pressure_of_a_metre) { BOOST_TEST(std::abs(water_at(4).pa_per_m() - 9806.6) < 1); }

BOOST_AUTO_TEST_CASE(temperatures_out_of_range_are_taken_at_its_ends) {
  BOOST_TEST(water_at(-20).viscosity == water_at(0).viscosity);
  BOOST_TEST(water_at(99).viscosity == water_at(60).viscosity);
}

BOOST_AUTO_TEST_SUITE_END()
