// What a design file says is what the Site holds.
#include "unit/design/reading.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

Site site_of(const std::string& text, const std::map<std::string, std::string>& set = {}) {
  const Read read = read_text(text, set);
  BOOST_TEST(all_text(read.diagnostics) == "");
  return read.site;
}

const std::string kBedRest =
    "size: [12 ft, 4 ft], rows: {count: 3}, header: west, feed: trunk, "
    "emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}";

}  // namespace

BOOST_AUTO_TEST_CASE(walks_turn_words_into_moves) {
  const Site site = site_of(kHead +
                            "lines:\n"
                            "  - name: trunk\n"
                            "    from: tap\n"
                            "    walk:\n"
                            "      - east 5 ft 6 in as gate\n"
                            "      - up 12 in\n"
                            "      - to [12 ft, 4 ft]\n"
                            "      - northeast 10 m falling 20 cm\n"
                            "      - {to: [1, 2, 3], as: corner}\n"
                            "      - {go: south 1 ft}\n"
                            "      - to gate\n" +
                            kPots);
  const std::vector<WalkStep>& walk = site.lines[0].walk;
  BOOST_REQUIRE(walk.size() == 7u);
  BOOST_TEST(walk[0].by.east.tenths_mm == (feet(5) + inches(6)).tenths_mm);
  BOOST_TEST(walk[0].as == "gate");
  BOOST_TEST(walk[1].by.up.tenths_mm == inches(12).tenths_mm);
  BOOST_TEST((walk[2].to->at == Point{feet(12), feet(4), {}}));
  BOOST_TEST(walk[3].by.east.tenths_mm == 70711);  // 10 m over the square root of two
  BOOST_TEST(walk[3].by.up.tenths_mm == -2000);
  BOOST_TEST((walk[4].to->at == Point{feet(1), feet(2), feet(3)}));
  BOOST_TEST(walk[5].by.north.tenths_mm == -feet(1).tenths_mm);
  BOOST_TEST((walk[6].to->form == Anchor::Form::named));
}

BOOST_AUTO_TEST_CASE(points_start_a_line_where_the_first_lies) {
  const Site site = site_of(kHead + "lines: [{name: trunk, points: [[0, 0], [5, 0], [5, 9]]}]\n" + kPots);
  BOOST_TEST((site.lines[0].from.form == Anchor::Form::at));
  BOOST_TEST(site.lines[0].walk.size() == 2u);
}

BOOST_AUTO_TEST_CASE(the_bucket_test_gives_the_flow) {
  // 5 gal in 75 s is 240 gph: workshop slides and a supplier's guide give this pair.
  const Site site = site_of(
      "teetally: design 1\nunits: {length: ft, flow: gph}\n"
      "source: {thread: 3/4 in hose, bucket: {volume: 5 gal, seconds: 75}}\n" +
      kTrunk + kPots);
  // Volumes are whole microlitres, so 5 gal is off by less than one in ten million.
  BOOST_TEST(std::llabs(site.source.flow->nl_per_h - 240 * std::int64_t{3785411784}) < 90'000);
  BOOST_TEST(site.source.flow_origin == "bucket test: 5 gal in 75 s");
}

BOOST_AUTO_TEST_CASE(repeat_numbers_names_and_moves_positions) {
  const Site site = site_of(kHead + kTrunk + "beds: [{name: bed, corner: [8 ft, 4 ft], " + kBedRest +
                            ", repeat: {count: 3, step: north 6 ft}}]\n");
  BOOST_REQUIRE(site.beds.size() == 3u);
  BOOST_TEST(site.beds[0].name == "bed 1");
  BOOST_TEST(site.beds[2].name == "bed 3");
  BOOST_TEST(site.beds[2].corner.north.tenths_mm == feet(16).tenths_mm);
}

BOOST_AUTO_TEST_CASE(a_name_with_a_number_in_it_is_filled_in) {
  const Site site = site_of(kHead +
                            "lines:\n"
                            "  - {name: trunk, from: tap, walk: [east 30 ft]}\n"
                            "  - {name: 'arm ${n}', from: 2 ft along trunk, walk: [north 3 ft],\n"
                            "     repeat: {count: 2, step: east 0 ft, along: 5 ft}}\n" +
                            kPots + "zones: {all: [pots, 'arm ${n}', trunk]}\n");
  BOOST_TEST(site.lines[2].name == "arm 2");
  BOOST_TEST(site.lines[2].from.along.tenths_mm == feet(7).tenths_mm);
  BOOST_TEST(site.zones[0].members.size() == 4u);  // the family spelt out
}

BOOST_AUTO_TEST_CASE(like_takes_settings_but_not_the_place) {
  const Site site =
      site_of(kHead + kTrunk + "beds:\n  - {name: a, corner: [8 ft, 4 ft], height: 12 in, " + kBedRest +
              "}\n"
              "  - {name: b, like: a, corner: [8 ft, 12 ft], rows: {spacing: 12 in}}\n"
              "  - {name: c, like: b, corner: [8 ft, 20 ft], tape: {size: 5/8 in, spacing: 8 in, flow: 0.3 gph}}\n");
  BOOST_TEST(site.beds[1].height.tenths_mm == inches(12).tenths_mm);
  BOOST_TEST(!site.beds[1].row_count.has_value());
  BOOST_TEST(site.beds[2].row_spacing->tenths_mm == inches(12).tenths_mm);
  BOOST_TEST(site.beds[2].rows.tape);
}

BOOST_AUTO_TEST_CASE(parameters_fill_scalars_and_yield_to_the_command_line) {
  const std::string text = kHead + "set: {rows: 2, side: west}\n" + kTrunk +
                           "beds: [{name: 'bed ${side}', corner: [8 ft, 4 ft], size: [12 ft, 4 ft], "
                           "rows: {count: \"${rows}\"}, header: \"${side}\", feed: trunk, "
                           "emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}}]\n";
  BOOST_TEST(*site_of(text).beds[0].row_count == 2);
  const Site set = site_of(text, {{"rows", "5"}, {"side", "east"}});
  BOOST_TEST(*set.beds[0].row_count == 5);
  BOOST_TEST(set.beds[0].name == "bed east");
}

BOOST_AUTO_TEST_CASE(a_bare_number_needs_a_declared_unit) {
  const Read read = read_text("teetally: design 1\nsource: {thread: 3/4 in hose, pressure: 50}\n" + kTrunk + kPots);
  BOOST_TEST(slugs_of(read.diagnostics) == "design/bad-value");
}

BOOST_AUTO_TEST_CASE(a_bare_name_means_the_tap_a_point_or_a_line) {
  const Site site = site_of(
      "teetally: design 1\nunits: {length: ft, flow: gph}\n"
      "source: {name: barrel, thread: 3/4 in hose}\n"
      "points: {gate: [3 ft, 0]}\n"
      "lines: [{name: trunk, from: barrel, walk: [to gate]}]\n" +
      kPots);
  BOOST_TEST((site.lines[0].from.form == Anchor::Form::source));
  BOOST_TEST((site.lines[0].walk[0].to->form == Anchor::Form::named));
  BOOST_TEST((site.containers[0].feed.form == Anchor::Form::nearest));
}
