// The whole gardens of tests/gardens are laid out without a complaint, and counted by hand where that is short.
#include "places.h"
#include "unit/garden/laying.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

Laid garden_named(const std::string& name) {
  Diagnostics diagnostics;
  const Source source = read_source(TEETALLY_SOURCE_DIR "/tests/gardens/" + name + "/garden.yaml", diagnostics);
  BOOST_REQUIRE(source);
  const Laid laid = lay_out_source(source, shipped_practice());
  for (const Diagnostic& diagnostic : laid.diagnostics) BOOST_TEST_MESSAGE(to_text(diagnostic));
  return laid;
}

using Counts = std::map<std::string, std::int64_t>;

void check_counts(const std::string& name, const Counts& expected) {
  const Laid laid = garden_named(name);
  BOOST_TEST_CONTEXT(name) {
    BOOST_TEST(laid.diagnostics.empty());
    const Counts found = counts(laid.garden);
    for (const auto& [joint, number] : expected) {
      BOOST_TEST(number == (found.count(joint) ? found.at(joint) : 0), joint);
    }
    for (const auto& [joint, number] : found) BOOST_TEST(expected.count(joint) == 1u, joint << " " << number);
  }
}

}  // namespace

BOOST_AUTO_TEST_CASE(balcony) {
  // The line turns twice and ends once; nine containers each leave it by a connector.
  check_counts("balcony", {{"head", 1}, {"elbow", 2}, {"end closure", 1}, {"take-off", 9}});
  BOOST_TEST(emitters(garden_named("balcony").garden) == 6 + 2 * 2 + 1);
}

BOOST_AUTO_TEST_CASE(tape_rows) {
  // Corn: a tee on the main; its header meets the feed at the south end, turns there and ends once. Squash: a tee on
  // the main, a tee in the middle of the header, two ends. The main ends once.
  check_counts("tape-rows", {{"head", 1},
                             {"elbow", 2 + 1},
                             {"tee", 1 + 2},
                             {"end closure", 1 + 1 + 2},
                             {"tape start", 12},
                             {"flush cap", 12}});
}

BOOST_AUTO_TEST_CASE(metric_plot) {
  // The spine: an elbow at the foot of the tap, an end. Each bed: a tee on the spine; level beds are fed straight in
  // at the first row: two tees, an elbow, three caps. Raspberries: a tee and a cap for each row. Olives: three
  // connectors.
  check_counts("metric-plot", {{"head", 1},
                               {"elbow", 1 + 3},
                               {"tee", 3 + 3 * 2 + 2},
                               {"end closure", 1},
                               {"flush cap", 3 * 3 + 2},
                               {"straight", 2},
                               {"take-off", 3}});
}

BOOST_AUTO_TEST_CASE(extend) {
  // New bed: a tee on the old trunk, a riser with elbows at the wall, the rim and the header, an end, three rows.
  // Far bed: the same on the extension. The extension goes on from the old end and ends once.
  check_counts("extend", {{"straight", 1},
                          {"tee", 2},
                          {"elbow", 2 * 3},
                          {"end closure", 1 + 2},
                          {"take-off", 2 * 3 + 3},
                          {"flush cap", 2 * 3}});
}

BOOST_AUTO_TEST_CASE(mixed_slope) {
  const Laid laid = garden_named("mixed-slope");
  BOOST_TEST(laid.diagnostics.empty());
  const Garden& garden = laid.garden;
  BOOST_REQUIRE(garden.zones.size() == 2u);
  BOOST_TEST(emitters(garden) == 2 * 3 * 15 + 3 + 12);
  const auto is_valve = [](const Device& device) { return device.part.kind == "zone valve"; };
  BOOST_TEST(std::count_if(garden.devices.begin(), garden.devices.end(), is_valve) == 2);
}
