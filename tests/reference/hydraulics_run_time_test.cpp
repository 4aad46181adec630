// Published run times, each with its source; the tolerance is what its printed figures round away.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "teetally/hydraulics/run_time.h"

namespace {

using namespace teetally;

constexpr double kInch = 25.4;                 // mm
constexpr double kSquareFoot = 0.09290304;     // m2
constexpr double kGallon = 3.785411784;        // l
constexpr double kGph = kGallon / 3.6e6;       // m3/s
constexpr double kAcre = 43560 * kSquareFoot;  // m2

bool near(double value, double printed, double within) { return std::abs(value - printed) <= within; }

}  // namespace

BOOST_AUTO_TEST_SUITE(hydraulics_run_time)

// 100 square feet by one inch is 62.34 gallons; one square metre by one millimetre a litre.
BOOST_AUTO_TEST_CASE(volume_of_a_depth) {
  BOOST_TEST(near(litres_for_depth(kInch, 100 * kSquareFoot) / kGallon, 62.34, 0.005));
  BOOST_TEST(litres_for_depth(1, 1) == 1.0);
}

// 0.53 gph at 12 by 12 in is 0.85 in/h (a reprinted industry example); in/h = 96.25 gpm / square feet.
BOOST_AUTO_TEST_CASE(rate) {
  BOOST_TEST(near(rate_mm_per_h(0.53 * kGph, kSquareFoot) / kInch, 0.85, 0.005));
  BOOST_TEST(near(rate_mm_per_h(60 * kGph, kSquareFoot) / kInch, 96.25, 0.005));
}

// Pennsylvania State University 2013: an inch on a 30 in bed of 100 ft, tape of six flows per 100 ft.
BOOST_AUTO_TEST_CASE(hours_for_an_inch_by_tape) {
  const double gph[] = {13.2, 20.4, 30.6, 27, 40.2, 80.4}, hours[] = {11.8, 7.6, 5.1, 5.8, 3.9, 1.9};
  for (int i = 0; i < 6; ++i) {
    WateringWish wish;
    wish.mm_per_week = kInch, wish.wetted_m2 = 250 * kSquareFoot, wish.flow_m3_per_s = gph[i] * kGph,
    wish.efficiency = 1;
    BOOST_TEST(near(watering_time(wish).minutes_per_week / 60, hours[i], 0.05), i);
  }
}

// Ontario Ministry of Agriculture 2016: tomato 0.4 gal a day and 4.1 h (4.15 unrounded), strawberry 0.32 gal and 0.76
// h, hops 11.8 l and 3.7 h, 4.8 h at 4.4 mm.
BOOST_AUTO_TEST_CASE(crop_demand) {
  const double tomato = litres_for_depth(crop_mm_per_week(4.4, 1.0) / 7, 3.75 * kSquareFoot);
  BOOST_TEST(near(tomato / kGallon, 0.4, 0.005));
  BOOST_TEST(near(minutes_for(tomato, 0.75 * 0.13 * kGph) / 60, 4.1, 0.06));
  const double strawberry = litres_for_depth(crop_mm_per_week(4.3, 0.75) / 7, 4 * kSquareFoot);
  BOOST_TEST(near(strawberry / kGallon, 0.32, 0.005));
  BOOST_TEST(near(minutes_for(strawberry, 0.42 * kGph) / 60, 0.76, 0.01));
  const double hops = litres_for_depth(crop_mm_per_week(3.4, 1.05) / 7, 3.3), flow = 2 * 1.6 / 3.6e6;
  BOOST_TEST(near(hops, 11.8, 0.05));
  BOOST_TEST(near(minutes_for(hops, flow) / 60, 3.7, 0.05));
  BOOST_TEST(near(minutes_for(hops * 4.4 / 3.4, flow) / 60, 4.8, 0.05));
}

// Coolong, home-garden drip slides: tape of 0.5 gpm per 100 ft, a strip of 1.5 by 100 ft: 93 gal, 186 min an inch, 372
// for two. The gallons were rounded down first.
BOOST_AUTO_TEST_CASE(strip_by_tape) {
  const double inch = litres_for_depth(kInch, 150 * kSquareFoot);
  BOOST_TEST(near(inch / kGallon, 93, 1));
  BOOST_TEST(near(minutes_for(93 * kGallon, 30 * kGph), 186, 1e-6));
  BOOST_TEST(near(minutes_for(2 * 93 * kGallon, 30 * kGph), 372, 1e-6));
}

// Same slides: 0.4 gal a day by one 0.5 gph emitter is 2.8 gal a week, about 6 h (5.6).
BOOST_AUTO_TEST_CASE(one_emitter) { BOOST_TEST(near(minutes_for(7 * 0.4 * kGallon, 0.5 * kGph) / 60, 5.6, 1e-9)); }

// University of California, organic farming course, appendix 13: 218 beds of 100 ft at 0.75 gpm on an acre: 163.5 gpm,
// 9,810 gph, 2.76 h an inch (2.77 unrounded).
BOOST_AUTO_TEST_CASE(acre_inch) {
  const double gph = 218 * 0.75 * 60;
  BOOST_TEST(gph == 9810.0);
  BOOST_TEST(near(minutes_for(litres_for_depth(kInch, kAcre), gph * kGph) / 60, 2.76, 0.01));
}

// Same course, example 5: 0.30 in a day, efficiency 75 % by adding the shortfall (1.25): 2.625 in a week, 71,290 gal an
// acre.
BOOST_AUTO_TEST_CASE(shortfall_added) {
  const double mm = given_depth(7 * 0.30 * kInch, 0.75, EfficiencyRule::add_shortfall);
  BOOST_TEST(near(mm / kInch, 2.625, 1e-9));
  BOOST_TEST(near(litres_for_depth(mm, kAcre) / kGallon, 71290, 15));
  BOOST_TEST(near(given_depth(3, 0.75, EfficiencyRule::divide), 4, 1e-9));
}

// University of California: two emitters a vine at 7 by 11 ft, mean 0.48 gph: 0.96 gph; gal = square feet x in x 0.623.
BOOST_AUTO_TEST_CASE(vines) {
  BOOST_TEST(near(litres_for_depth(0.25 * kInch, 77 * kSquareFoot) / kGallon, 77 * 0.25 * 0.623, 0.01));
  BOOST_TEST(near(minutes_for(0.96 * kGallon, 2 * 0.48 * kGph), 60, 1e-9));
}

// University of California (Cahn 2017): 0.27 in/h for 45 min gives 0.2 in.
BOOST_AUTO_TEST_CASE(depth_in_a_time) {
  const double flow = 0.27 * kInch * kSquareFoot / 3.6e6;
  BOOST_TEST(near(rate_mm_per_h(flow, kSquareFoot) / kInch * 45 / 60, 0.2, 0.003));
}

// ATTRA: tape of 0.45 gpm per 100 ft on clay loam takes at most 157 min at a time; 5.8 h a week for an inch is 2 to 3
// starts.
BOOST_AUTO_TEST_CASE(soil_limits_a_start) {
  WateringWish wish;
  wish.mm_per_week = kInch, wish.wetted_m2 = 250 * kSquareFoot, wish.flow_m3_per_s = 27 * kGph, wish.efficiency = 1;
  wish.minutes_soil_holds = 157;
  const WateringTime time = watering_time(wish);
  BOOST_TEST(near(time.minutes_per_week / 60, 5.8, 0.05));
  BOOST_TEST(time.starts_per_week == 3);
  BOOST_TEST(time.minutes_per_start < 157);
  BOOST_TEST(!time.soil_overfull);
  wish.minutes_soil_holds = 30;
  BOOST_TEST(watering_time(wish).soil_overfull);
  BOOST_TEST(watering_time(wish).starts_per_week == 7);
}

BOOST_AUTO_TEST_CASE(no_flow_is_no_time) {
  WateringWish wish;
  wish.mm_per_week = 25, wish.wetted_m2 = 10;
  BOOST_TEST(watering_time(wish).minutes_per_week == 0.0);
  BOOST_TEST(watering_time(wish).starts_per_week == 0);
  // A silt loam holding 0.17 mm per mm, roots of 300 mm, half used up: 25.5 mm of water.
  BOOST_TEST(near(minutes_soil_holds(0.17, 300, 0.5, 1, 1 / 3.6e6), 25.5 * 60, 1e-6));
}

BOOST_AUTO_TEST_SUITE_END()
