// The stage as a whole, on designs as people write them.
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "teetally/hydraulics.h"
#include "unit/hydraulics/made_garden.h"

using namespace teetally;

namespace {

SizedGarden sized(const std::string& design, UnitSystem units = UnitSystem::us) {
  Diagnostics diagnostics;
  const Practice practice = shipped_practice();
  const Site site = read_design(source_from_text("garden.yaml", design), shipped_vocabulary(), {}, diagnostics);
  const Garden garden = lay_out(site, practice, diagnostics);
  SizedGarden out = size_garden(garden, practice, units, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics.in_order())
    BOOST_TEST((diagnostic.severity != Severity::error), to_text(diagnostic));
  return out;
}

const char* const kBeds = R"(teetally: design 1
name: Two beds
units: {length: ft}
source:
  at: [0, 0, 18 in]
  thread: 3/4 in hose
  pressure: 55 psi
  bucket: {volume: 5 gal, seconds: 60}
lines:
  - {name: trunk, from: tap, walk: [down 18 in, east 6 ft, north 24 ft]}
beds:
  - name: tomatoes
    corner: [8 ft, 4 ft]
    size: [12 ft, 4 ft]
    height: 12 in
    rows: {count: 3}
    emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}
    header: west
    feed: nearest point of trunk
  - {name: greens, like: tomatoes, corner: [8 ft, 14 ft], rows: {count: 4}}
)";

}  // namespace

BOOST_AUTO_TEST_SUITE(sized_gardens)

BOOST_AUTO_TEST_CASE(two_beds_work) {
  const SizedGarden out = sized(kBeds);
  BOOST_TEST((out.verdict == Verdict::works), out.words);
  for (const Run& run : out.garden.runs) BOOST_TEST(!run.size.empty(), run.name);
  for (const Leg& leg : out.garden.legs) BOOST_TEST(leg.size == out.garden.runs[leg.run].size);
  BOOST_TEST(out.runs.size() == out.garden.runs.size());
  BOOST_TEST(out.rows.size() == 7u);
  // What leaves the tap is what the rows give.
  double given = 0, left = 0;
  for (const RowHydraulics& row : out.rows) given += row.flow_m3_per_s;
  for (const double q : out.leg_flow_m3_per_s) left = std::max(left, std::abs(q));
  BOOST_TEST(std::abs(given / left - 1) < 1e-9);
  BOOST_TEST(std::abs(given / out.zones[0].demand_m3_per_s - 1) < 1e-9);
}

BOOST_AUTO_TEST_CASE(zones_are_judged_one_by_one) {
  const SizedGarden out = sized(std::string(kBeds) + "zones: {first: [tomatoes], second: [greens]}\n");
  BOOST_REQUIRE(out.zones.size() == 2u);
  BOOST_TEST((out.verdict == Verdict::works), out.words);
  BOOST_TEST(out.words.find("works: zone 'first' needs ") == 0u, out.words);
  BOOST_TEST(out.zones[0].demand_m3_per_s < out.zones[1].demand_m3_per_s);
}

BOOST_AUTO_TEST_CASE(the_same_garden_in_metric_words) {
  const SizedGarden out = sized(kBeds, UnitSystem::metric);
  BOOST_TEST(out.words.find(" l/h of 1136 l/h tested") != std::string::npos, out.words);
}

BOOST_AUTO_TEST_CASE(json_holds_the_whole_answer) {
  const std::string text = to_text(to_json(sized(kBeds)));
  for (const char* key :
       {"\"verdict\"", "\"worst_path\"", "\"longest_even_tenths_mm\"", "\"size_by_rule\"", "\"node_pa\""}) {
    BOOST_TEST(text.find(key) != std::string::npos, key);
  }
}

BOOST_AUTO_TEST_CASE(settings_that_cannot_be_read_are_errors) {
  made::Maker maker;
  const int bed = maker.element("bed");
  maker.outlet(maker.line(0, feet(10), "", bed), made::emitter(1), bed);
  Practice practice = made::practice();
  practice.other["filter loss"] = {"a bit", "practice.yaml:3:5"};
  practice.other["friction formula"] = {"hazen-williams", "practice.yaml:4:5"};
  practice.other["most flow variation"] = {"120 %", "practice.yaml:5:5"};
  Diagnostics diagnostics;
  size_garden(maker.garden, practice, UnitSystem::us, diagnostics);
  BOOST_REQUIRE(diagnostics.in_order().size() == 2u);
  BOOST_TEST(diagnostics.in_order()[0].slug == "hydraulics/bad-setting");
  BOOST_TEST(diagnostics.in_order()[0].message.find("'filter loss' is 'a bit' in the practice (practice.yaml:3:5)") ==
             0u);
}

// Thousands of emitters: one answer, converged, in balance.
BOOST_AUTO_TEST_CASE(a_large_garden) {
  made::Maker maker;
  maker.garden.source.flow = Flow{4000 * made::kGph};
  maker.garden.source.static_pressure = made::psi(80);
  const int line = maker.element("line");
  int at = 0;
  for (int i = 0; i < 100; ++i) {
    at = maker.line(at, feet(2), "1 in", line, "line");
    for (int row = 0; row < 4; ++row) maker.row(at, feet(25), inches(6), made::emitter(0.02), line);
  }
  Diagnostics diagnostics;
  const SizedGarden out = size_garden(maker.garden, made::practice(), UnitSystem::us, diagnostics);
  BOOST_TEST(out.rows.size() == 400u);
  double given = 0;
  for (const RowHydraulics& row : out.rows) given += row.flow_m3_per_s;
  BOOST_TEST(std::abs(given / std::abs(out.leg_flow_m3_per_s[0]) - 1) < 1e-9);
}

BOOST_AUTO_TEST_SUITE_END()
