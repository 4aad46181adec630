// What is said of a zone: its words for every kind of verdict, its rows, its worst path.
#include "hydraulics/zone_report.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "hydraulics/tubing.h"
#include "unit/hydraulics/made_garden.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

struct Reported {
  ZoneHydraulics zone;
  std::vector<RowHydraulics> rows;
};

Reported report(const Garden& garden) {
  const Practice practice = made::practice();
  const Settings settings = settings_of(practice);
  const auto insides = insides_of_legs(garden, practice);
  const ZoneFlow flow = flow_of(garden, 0, insides, fitting_losses(garden, 1.8), settings);
  return {zone_report(garden, 0, flow, insides, settings, UnitSystem::us),
          row_reports(garden, flow, insides, settings)};
}

// A bed of rows of half-gallon emitters a foot apart, 20 ft of tubing from the tap.
made::Maker bed_of(int rows, int row_feet) {
  made::Maker maker;
  const int bed = maker.element("bed 'tomatoes'");
  const int end = maker.line(0, feet(20), "1/2 in", bed, "trunk");
  for (int i = 0; i < rows; ++i) {
    maker.row(end, feet(row_feet), inches(12), made::emitter(0.5), bed, "row " + std::to_string(i + 1));
  }
  return maker;
}

bool says(const std::string& words, const std::string& part) { return words.find(part) != std::string::npos; }

}  // namespace

BOOST_AUTO_TEST_SUITE(zone_reports)

BOOST_AUTO_TEST_CASE(a_garden_that_works) {
  const Reported out = report(bed_of(3, 12).garden);
  BOOST_TEST((out.zone.verdict == Verdict::works), out.zone.words);
  BOOST_TEST(says(out.zone.words, "works: needs 1"), out.zone.words);
  BOOST_TEST(out.zone.variation < 0.1);
  BOOST_TEST(out.zone.uniformity_percent > 90);
  BOOST_REQUIRE(out.rows.size() == 3u);
  BOOST_TEST(out.rows[0].outlets == 12);
  BOOST_TEST(out.rows[0].first_m3_per_s > out.rows[0].last_m3_per_s);
  BOOST_TEST((out.rows[0].longest_even > out.rows[0].length));
  BOOST_TEST(out.zone.most_m3_per_s > out.zone.demand_m3_per_s);
}

BOOST_AUTO_TEST_CASE(demand_within_the_margin_is_tight) {
  made::Maker maker = bed_of(10, 12);
  maker.garden.source.flow = Flow{70 * made::kGph};
  const Reported out = report(maker.garden);
  BOOST_TEST((out.zone.verdict == Verdict::tight), out.zone.words);
  BOOST_TEST(says(out.zone.words, "of 70 gph tested, more than the 56 gph that keep 20 % in reserve"), out.zone.words);
}

BOOST_AUTO_TEST_CASE(demand_above_the_test_will_not_work) {
  made::Maker maker = bed_of(10, 12);
  maker.garden.source.flow = Flow{40 * made::kGph};
  const Reported out = report(maker.garden);
  BOOST_TEST((out.zone.verdict == Verdict::will_not_work), out.zone.words);
  BOOST_TEST(says(out.zone.words, "the tap gave 40 gph, short by 1"), out.zone.words);
}

BOOST_AUTO_TEST_CASE(a_row_too_long_is_uneven) {
  const Reported tight = report(bed_of(2, 60).garden), bad = report(bed_of(2, 140).garden);
  BOOST_TEST((tight.zone.verdict == Verdict::tight), tight.zone.words);
  BOOST_TEST(says(tight.zone.words, "outlets differ by"), tight.zone.words);
  BOOST_TEST((tight.rows[0].longest_even < feet(60)));
  BOOST_TEST((bad.zone.verdict == Verdict::will_not_work), bad.zone.words);
  BOOST_TEST(says(bad.zone.words, "row 1 gets "), bad.zone.words);
}

BOOST_AUTO_TEST_CASE(without_measurements_it_says_so) {
  made::Maker maker = bed_of(3, 12);
  maker.garden.source.flow.reset();
  Reported out = report(maker.garden);
  BOOST_TEST((out.zone.verdict == Verdict::unknown), out.zone.words);
  BOOST_TEST(says(out.zone.words, "no bucket test"), out.zone.words);
  BOOST_TEST(out.zone.most_m3_per_s == 0.0);
  maker = bed_of(3, 12);
  maker.garden.source.static_pressure.reset();
  out = report(maker.garden);
  BOOST_TEST((out.zone.verdict == Verdict::works), out.zone.words);
  BOOST_TEST(says(out.zone.words, "taken for granted that the tap keeps 25 psi"), out.zone.words);
}

BOOST_AUTO_TEST_CASE(compensating_outlets_have_a_range) {
  made::Maker maker;
  const int bed = maker.element("bed 'low'");
  maker.outlet(maker.line(0, feet(20), "1/2 in", bed, "line", feet(-60)), made::emitter(1, true), bed);
  const Reported out = report(maker.garden);
  BOOST_TEST((out.zone.verdict == Verdict::tight), out.zone.words);
  BOOST_TEST(says(out.zone.words, "more than the 45 psi its emitters are made for"), out.zone.words);
  made::Maker high;
  const int hill = high.element("bed 'hill'");
  high.outlet(high.line(0, feet(20), "1/2 in", hill, "line", feet(40)), made::emitter(1, true), hill);
  BOOST_TEST((report(high.garden).zone.verdict == Verdict::will_not_work));
}

BOOST_AUTO_TEST_CASE(fast_water_is_tight) {
  made::Maker maker;
  const int bed = maker.element("bed");
  maker.garden.source.flow = Flow{900 * made::kGph};
  maker.outlet(maker.line(0, feet(5), "1/2 in", bed), made::emitter(1, true), bed, 300);
  const Reported out = report(maker.garden);
  BOOST_TEST(says(out.zone.words, "water runs at 5.67 ft/s"), out.zone.words);
}

BOOST_AUTO_TEST_CASE(metric_words) {
  made::Maker maker = bed_of(10, 12);
  const Practice practice = made::practice();
  const Settings settings = settings_of(practice);
  const auto insides = insides_of_legs(maker.garden, practice);
  const ZoneFlow flow = flow_of(maker.garden, 0, insides, fitting_losses(maker.garden, 1.8), settings);
  BOOST_TEST(
      says(zone_report(maker.garden, 0, flow, insides, settings, UnitSystem::metric).words, " l/h of 1136 l/h tested"));
}

BOOST_AUTO_TEST_CASE(the_worst_path_falls_all_the_way) {
  const Reported out = report(bed_of(3, 30).garden);
  const auto& path = out.zone.worst_path;
  BOOST_REQUIRE(path.size() == 3u);
  BOOST_TEST(path[0].where == "tap");
  BOOST_TEST((path[1].along == feet(20)));
  BOOST_TEST((path[2].along == feet(50)));
  BOOST_TEST(path[2].where == "row 1");
  BOOST_TEST(path[0].pa > path[1].pa);
  BOOST_TEST(path[1].pa > path[2].pa);
  BOOST_TEST(std::abs(path[2].pa - out.zone.lowest_pa) < 1e-6);
}

BOOST_AUTO_TEST_CASE(a_zone_of_nothing) {
  made::Maker maker;
  const Reported out = report(maker.garden);
  BOOST_TEST((out.zone.verdict == Verdict::unknown));
  BOOST_TEST(out.zone.words == "unknown: nothing here gives water");
}

BOOST_AUTO_TEST_SUITE_END()
