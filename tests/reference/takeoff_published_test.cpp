// Takeoffs of published layouts. Figures that the source prints are compared as printed; where it leaves a count
// open, the test says what it takes from the layout instead.
#include <fmt/format.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cmath>

#include "unit/needs/hand_garden.h"
#include "unit/needs/laid_takeoff.h"

using namespace teetally;

namespace {

// Rows of a bed reach from edge to edge, as the published examples count them.
Practice edge_to_edge() {
  Practice practice = shipped_practice();
  practice.header_inset.value = {};
  practice.row_end_inset.value = {};
  practice.row_inset.value = {};
  return practice;
}

// Sijali, Drip irrigation: options for smallholder farmers, RELMA Technical Handbook 24 (2001), the drum kit as the
// Akvopedia page "KARI" gives it: five beds of 1 m by 15 m, two lines each, from a manifold with five outlets.
// That one of the three bends is at the last outlet and two are between drum and manifold is our reading.
std::string drum_kit(const std::string& spacing) {
  std::string text =
      "teetally: design 1\n"
      "name: drum kit\n"
      "units: {length: m, flow: l/h}\n"
      "sizes: inch\n"
      "source: {name: drum, at: [0, 0, 1], thread: 3/4 in hose}\n"
      "lines:\n"
      "  - {name: manifold, from: drum, size: 1/2 in, walk: [east 0.5 m, down 1 m, east 4.5 m]}\n"
      "  - {name: outlet 5, from: end of manifold, size: 1/2 in, walk: [north 50 cm]}\n";
  for (int n = 1; n <= 4; ++n) {
    text += fmt::format("  - {{name: outlet {0}, from: '[{0} m, 0 m]', size: 1/2 in, walk: [north 50 cm]}}\n", n);
  }
  text += "beds:\n";
  for (int n = 1; n <= 5; ++n) {
    text += fmt::format(
        "  - {{name: bed {0}, corner: [{1}, 0.5], size: [0.5, 15], rows: {{count: 2}}, direction: north-south,\n"
        "     emitter line: {{size: 1/4 in, spacing: {2}, flow: 2 l/h}}, rows from: outlet {0}}}\n",
        n, n - 0.25, spacing);
  }
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(takeoff_published)

BOOST_AUTO_TEST_CASE(drum_kit_of_five_beds_and_two_lines) {
  const LaidTakeoff laid = take_off_text(drum_kit("30 cm"), edge_to_edge());
  BOOST_TEST(designed(laid.takeoff, "tee") == 4);
  BOOST_TEST(designed(laid.takeoff, "elbow") == 3);
  BOOST_TEST(designed(laid.takeoff, "barbed connector") == 10);
  BOOST_TEST(designed(laid.takeoff, "feeder tubing") == 10 * metres(1).tenths_mm / 4);  // leads; the kit's are 0.5 m
  // 10 lines of 15 m and a closure each: the printed list is cut off here, so these follow from its layout.
  BOOST_TEST(designed(laid.takeoff, "emitter line") == metres(150).tenths_mm);
  BOOST_TEST(designed(laid.takeoff, "flush cap") == 10);
  const Need* row = nullptr;
  for (const Need& need : laid.takeoff.needs) row = need.part.kind == "emitter line" ? &need : row;
  BOOST_REQUIRE(row != nullptr);
  BOOST_TEST(row->pieces.size() == 10u);
}

BOOST_AUTO_TEST_CASE(drum_kit_plants_by_spacing) {
  const std::pair<const char*, int> published[] = {{"60 cm", 250}, {"30 cm", 500}, {"10 cm", 1500}};
  for (const auto& [spacing, plants] : published) {
    BOOST_TEST(emitters_in_rows(take_off_text(drum_kit(spacing), edge_to_edge()).garden) == plants, spacing);
  }
}

// Bucket kit as the same handbook and a food-security practice sheet describe it: two lines of 15 m, 0.5 m apart, on
// a 1 m bed, led off by two connecting tubes; 50, 100 and 300 plants at 0.6, 0.3 and 0.1 m. Practical Action's
// variant counts 100 watering points on 30 m at 0.3 m.
BOOST_AUTO_TEST_CASE(bucket_kit) {
  const std::pair<const char*, int> published[] = {{"60 cm", 50}, {"30 cm", 100}, {"10 cm", 300}};
  for (const auto& [spacing, plants] : published) {
    const std::string design = fmt::format(
        "teetally: design 1\n"
        "name: bucket kit\n"
        "units: {{length: m, flow: l/h}}\n"
        "sizes: inch\n"
        "source: {{name: bucket, at: [0, 0, 1], thread: 3/4 in hose}}\n"
        "lines: [{{name: stem, from: bucket, size: 1/2 in, walk: [down 1 m, east 1 m]}}]\n"
        "beds:\n"
        "  - {{name: bed, corner: [0.75, 0], size: [0.5, 15], rows: {{count: 2}}, direction: north-south, header: "
        "south,\n"
        "     emitter line: {{size: 1/4 in, spacing: {}, flow: 2 l/h}}, feed: end of stem, feed at: middle}}\n",
        spacing);
    const LaidTakeoff laid = take_off_text(design, edge_to_edge());
    BOOST_TEST(emitters_in_rows(laid.garden) == plants, spacing);
    BOOST_TEST(designed(laid.takeoff, "emitter line") == metres(30).tenths_mm);
    BOOST_TEST(designed(laid.takeoff, "barbed connector") == 2);
    BOOST_TEST(designed(laid.takeoff, "flush cap") == 2);
  }
}

namespace {

// Government of India, Ministry of Agriculture, Micro Irrigation Guidelines (January 2006), annex "Indicative
// requirement of material for drip irrigation system", 4,000 m2: spacing of rows and of plants, 12 mm lateral and
// emitters. Emitters per plant are the table's emitters over its plants, rounded: our reading.
struct Block {
  double row_m, plant_m;
  int lateral_m, emitters, microtube_m;
  double rows_per_line, emitters_per_plant;
};
constexpr Block kBlocks[] = {
    {12, 12, 360, 115, 90, 1, 4},    {10, 10, 425, 165, 125, 1, 4}, {9, 9, 460, 210, 160, 1, 4},
    {8, 8, 535, 260, 195, 1, 4},     {6, 6, 710, 460, 345, 1, 4},   {5, 5, 850, 490, 370, 1, 3},
    {4, 4, 1050, 760, 570, 1, 3},    {3, 3, 1410, 910, 0, 1, 2},    {3, 1.5, 1410, 1810, 0, 1, 2},
    {2.5, 2.5, 1700, 1296, 0, 1, 2}, {2, 2, 2125, 1020, 0, 1, 1},   {1.5, 1.5, 2825, 1810, 0, 1, 1},
    {1, 1, 2020, 2020, 0, 2, 0.5},
};

// One lateral of `metres`, with outlets `pitch` apart, on a supply line.
LaidTakeoff lateral(double length_m, double pitch_m) {
  const std::string design = fmt::format(
      "teetally: design 1\n"
      "name: block\n"
      "units: {{length: m, flow: l/h}}\n"
      "sizes: inch\n"
      "source: {{at: [0, 0], thread: 3/4 in hose}}\n"
      "lines: [{{name: main, from: tap, size: 1/2 in, walk: [east 5 m]}}]\n"
      "tape rows:\n"
      "  - {{name: lateral, start: [5, 0], direction: north, length: {:.4f} m, rows from: main,\n"
      "     tape: {{size: 5/8 in, spacing: {:.4f} m, flow: 4 l/h}}}}\n",
      length_m, pitch_m);
  return take_off_text(design, edge_to_edge());
}

}  // namespace

BOOST_AUTO_TEST_CASE(national_table_laterals) {
  for (const Block& block : kBlocks) {
    const double net = 4000 / block.row_m / block.rows_per_line;
    const LaidTakeoff laid = lateral(net, 1);
    const auto designed_m = static_cast<double>(designed(laid.takeoff, "drip tape")) / 10000;
    BOOST_TEST(std::abs(designed_m - net) < 0.001);
    const double over = block.lateral_m / designed_m;
    if (block.rows_per_line == 2) {
      BOOST_TEST((over > 1.005 && over < 1.015));  // the one line of the table with an allowance of 1 %
      continue;
    }
    BOOST_TEST((over >= 1.034 && over <= 1.081), block.row_m << " m rows: " << over);
    // With the shipped allowance of 6 % the takeoff lands within 2.5 % of every printed length.
    double total_m = 0;
    for (const Need& need : laid.takeoff.needs) {
      if (need.part.kind == "drip tape") total_m += static_cast<double>(need.amount) / 10000;
    }
    BOOST_TEST(std::abs(total_m / block.lateral_m - 1) < 0.025, block.row_m << " m rows: " << total_m);
  }
}

BOOST_AUTO_TEST_CASE(national_table_laterals_depend_on_the_row_spacing_only) {
  BOOST_TEST(designed(lateral(4000 / 3.0, 3).takeoff, "drip tape") ==
             designed(lateral(4000 / 3.0, 1.5).takeoff, "drip tape"));
}

// The table's emitters are 1 % to 5 % more than whole plants want.
BOOST_AUTO_TEST_CASE(national_table_emitters) {
  for (const Block& block : kBlocks) {
    const double plants = std::ceil(4000 / (block.row_m * block.plant_m) - 1e-9);
    // Lengths are whole tenths of a millimetre; a third of a metre rounded up would lose the last outlet.
    const double pitch = std::floor(block.plant_m / block.emitters_per_plant * 10000) / 10000;
    const auto emitters = static_cast<double>(emitters_in_rows(lateral(plants * block.plant_m, pitch).garden));
    BOOST_TEST(emitters == plants * block.emitters_per_plant);
    const double over = block.emitters / emitters;
    BOOST_TEST((over >= 1.0095 && over <= 1.0505), block.row_m << " x " << block.plant_m << ": " << over);
  }
}

// Microtube is 0.75 m for each emitter, rounded up to 5 m.
BOOST_AUTO_TEST_CASE(national_table_microtube) {
  for (const Block& block : kBlocks) {
    if (block.microtube_m == 0 || block.emitters > 260) continue;
    std::string at;
    for (int i = 1; i <= block.emitters; ++i) at += fmt::format("{}[{}, 0.75]", i > 1 ? ", " : "", i);
    const std::string design = fmt::format(
        "teetally: design 1\n"
        "name: block\n"
        "units: {{length: m, flow: l/h}}\n"
        "sizes: inch\n"
        "source: {{at: [0, 0], thread: 3/4 in hose}}\n"
        "lines: [{{name: lateral, from: tap, size: 1/2 in, walk: [east 300 m]}}]\n"
        "containers: [{{name: trees, at: [{}], emitter: {{flow: 4 l/h}}, feed: nearest point of lateral}}]\n",
        at);
    const LaidTakeoff laid = take_off_text(design, edge_to_edge());
    const std::int64_t net = designed(laid.takeoff, "feeder tubing");
    BOOST_TEST(net == block.emitters * 7500);
    BOOST_TEST((net + 49'999) / 50'000 * 5 == block.microtube_m);
    BOOST_TEST(designed(laid.takeoff, "emitter") == block.emitters);
    BOOST_TEST(designed(laid.takeoff, "barbed connector") == block.emitters);
  }
}

// University of California Santa Cruz, Teaching Organic Farming and Gardening, Unit 1.5, exercise 3: a bed of 25 ft
// by 4 ft with four tapes, outlets 8 in apart. Printed: 100 ft; 37.5 outlets on a line and 150 on the bed (a hand
// calculation with fractions). Whole spacings are 37 and 148. The printed 133 outlets in 100 ft is the figure for
// 9 in; at 8 in it is 150.
BOOST_AUTO_TEST_CASE(four_tapes_on_a_garden_bed) {
  const std::string design =
      "teetally: design 1\n"
      "name: bed\n"
      "units: {length: ft, flow: gph}\n"
      "source: {at: [0, 0], thread: 3/4 in hose}\n"
      "lines: [{name: main, from: tap, walk: [north 10 ft]}]\n"
      "beds: [{name: greens, corner: [2, 0], size: [25, 4], rows: {count: 4}, header: west, feed: end of main,\n"
      "        tape: {size: 5/8 in, spacing: 8 in, flow: 0.296 gph}}]\n";
  const LaidTakeoff laid = take_off_text(design, edge_to_edge());
  BOOST_TEST(designed(laid.takeoff, "drip tape") == feet(100).tenths_mm);
  BOOST_TEST(emitters_in_rows(laid.garden) == 4 * 37);
  BOOST_TEST(feet(100).tenths_mm / inches(8).tenths_mm == 150);
  BOOST_TEST(designed(laid.takeoff, "tape connector") == 4);
  BOOST_TEST(designed(laid.takeoff, "flush cap") == 4);
}

// US Army Engineer School, subcourse EN0069, lesson 4 (scrub table): parts are consolidated before stock is chosen.
// Of 2x4: items 1 and 3 are two pieces each of 4 ft 6 in; items 2 and 4 two each of 3 ft, item 5 one, and item 6 four
// (by subtraction): nine pieces of 3 ft. Supply tubing stands in for the timber.
BOOST_AUTO_TEST_CASE(consolidation) {
  Diagnostics diagnostics;
  const std::string list =
      "kind,size,length,count,for\n"
      "supply tubing,1/2 in,4 ft 6 in,2,item 1\n"
      "supply tubing,1/2 in,3 ft,2,item 2\n"
      "supply tubing,1/2 in,4 ft 6 in,2,item 3\n"
      "supply tubing,1/2 in,3 ft,2,item 4\n"
      "supply tubing,1/2 in,3 ft,1,item 5\n"
      "supply tubing,1/2 in,3 ft,4,item 6\n";
  const auto takeoff = read_parts_list(source_from_text("table.csv", list), shipped_vocabulary(), diagnostics);
  require_no_errors(diagnostics);
  BOOST_REQUIRE(takeoff);
  BOOST_REQUIRE(takeoff->needs.size() == 1u);
  const Need& need = takeoff->needs[0];
  const auto pieces_of = [&](Length length) {
    return std::count_if(need.pieces.begin(), need.pieces.end(),
                         [&](const NeededPiece& piece) { return piece.length == length && !piece.may_join; });
  };
  BOOST_TEST(pieces_of(feet(3)) == 9);
  BOOST_TEST(pieces_of(feet(4) + inches(6)) == 4);
  BOOST_TEST(need.amount == (feet(9 * 3) + feet(18)).tenths_mm);
  BOOST_TEST(need.reasons.size() == 6u);
}

namespace {

Takeoff many_tees(int count, Percent spares) {
  HandGarden garden;
  const int line = garden.element("line 'a'", "line");
  const int run = garden.run("a", LegRole::supply, "1/2 in", line);
  const int leg = garden.leg(0, garden.node(1, 0, 0), run, feet(1));
  for (int i = 0; i < count; ++i) garden.fitting(Joint::tee, {leg, leg, leg}, line);
  Practice practice = bare_practice();
  practice.fitting_spares = {spares, "test"};
  Diagnostics diagnostics;
  return take_off(garden.sized, practice, shipped_vocabulary(), UnitSystem::us, diagnostics);
}

}  // namespace

// The same lesson: of 500 and 300 pieces for a hundred tables, 10 % more are 550 and 330 (the last step is ours).
BOOST_AUTO_TEST_CASE(ten_per_cent_more_multiplies) {
  BOOST_TEST(amount_of(many_tees(500, Percent{100'000}), "tee, size 1/2 in, branch size 1/2 in") == 550);
  BOOST_TEST(amount_of(many_tees(300, Percent{100'000}), "tee, size 1/2 in, branch size 1/2 in") == 330);
}

// Two conventions of 15 % on 106 in of courses 5.5 in wide: EN01136 divides by 0.85 (22.67, so 23), EN0069 multiplies
// by 1.15 (22.16). The takeoff multiplies.
BOOST_AUTO_TEST_CASE(waste_multiplies_and_does_not_divide) {
  HandGarden garden;
  const int line = garden.element("line 'a'", "line");
  garden.leg(0, garden.node(1, 0, 0), garden.run("a", LegRole::supply, "1/2 in", line), inches(106));
  Practice practice = bare_practice();
  practice.tubing_waste = {Percent{150'000}, "test"};
  Diagnostics diagnostics;
  const Takeoff takeoff = take_off(garden.sized, practice, shipped_vocabulary(), UnitSystem::us, diagnostics);
  const double courses = static_cast<double>(amount_of(takeoff, "supply tubing, size 1/2 in")) / 254 / 5.5;
  BOOST_TEST((courses > 22.16 && courses < 22.17), courses);
}

BOOST_AUTO_TEST_SUITE_END()
