// Every complaint of the design reader, each from a file with one thing wrong.
#include "unit/design/reading.h"

using namespace teetally;
using namespace teetally::testing;

namespace {

struct Wrong {
  std::string slug, text;
  int line;
};

std::string bed(const std::string& changed) {
  return kHead + kTrunk +
         "beds:\n"
         "  - {name: tomatoes, corner: [8 ft, 4 ft], size: [12 ft, 4 ft], rows: {count: 3}, " +
         changed + "}\n";
}

const std::string kDrip = "emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}";

const Wrong kWrongs[] = {
    {"design/wrong-header", "teetally: desing 1\n", 1},
    {"design/wrong-header", "name: no header\n", 1},
    {"design/unknown-key", kHead + kTrunk + kPots + "colour: green\n", 6},
    {"design/wrong-type", kHead + kTrunk + kPots + "points: [1, 2]\n", 6},
    {"design/missing-key", "teetally: design 1\n" + kTrunk + kPots, 1},
    {"design/bad-value", bed(kDrip + ", feed: trunk, height: 12 parsecs"), 6},
    {"design/bad-value", bed(kDrip + ", feed: trunk, height: -1 in"), 6},
    {"design/bad-anchor", bed(kDrip + ", feed: ' '"), 6},
    {"design/bad-step", kHead + "lines: [{name: trunk, from: tap, walk: [esat 3 ft]}]\n" + kPots, 4},
    {"design/contradiction", bed(kDrip + ", feed: trunk, tape: {size: 5/8 in, spacing: 8 in, flow: 0.3 gph}"), 6},
    {"design/contradiction", bed(kDrip + ", feed: trunk, header: west, direction: north-south"), 6},
    {"design/contradiction", bed(kDrip + ", feed: trunk, rows from: trunk"), 6},
    {"design/duplicate-name", kHead + kTrunk + kPots + "points: {trunk: [1 ft, 2 ft]}\n", 4},
    {"design/unknown-name", bed(kDrip + ", feed: nearest point of trnuk"), 6},
    {"design/unknown-name", bed(kDrip + ", feed: trunk, like: beans"), 6},
    {"design/in-no-zone", bed(kDrip + ", feed: trunk") + kPots + "zones: {a: [pots]}\n", 6},
    {"design/in-two-zones", kHead + kTrunk + kPots + "zones: {a: [pots], b: [pots]}\n", 6},
    {"design/nothing-to-water", kHead + kTrunk, 1},
    {"design/unknown-parameter", bed(kDrip + ", feed: \"${lien}\""), 6},
    {"design/bad-parameter", kHead + kTrunk + kPots + "set: {row count: 3}\n", 6},
    {"design/bad-parameter", kHead + kTrunk + kPots + "set: {n: 3}\n", 6},
    {"design/unused-parameter", kHead + kTrunk + kPots + "set: {rows: 3}\n", 6},
    {"design/circular-line",
     kHead +
         "lines:\n  - {name: trunk, from: end of b, walk: [east 1 ft]}\n  - {name: b, from: end of trunk, walk: [up 1 "
         "ft]}\n" +
         kPots,
     6},
};

}  // namespace

BOOST_AUTO_TEST_CASE(one_thing_wrong_is_one_complaint_at_its_place) {
  for (const Wrong& wrong : kWrongs) {
    const Read read = read_text(wrong.text);
    BOOST_TEST_CONTEXT(wrong.text << all_text(read.diagnostics)) {
      BOOST_TEST(slugs_of(read.diagnostics) == wrong.slug);
      BOOST_REQUIRE(!read.diagnostics.empty());
      BOOST_TEST(read.diagnostics[0].place.line == wrong.line);
      BOOST_TEST(read.diagnostics[0].place.column > 0);
    }
  }
}

BOOST_AUTO_TEST_CASE(likes_in_a_circle_name_it) {
  const Read read = read_text(kHead + kTrunk +
                              "containers:\n"
                              "  - {name: a, at: [[1 ft, 1 ft]], like: b}\n"
                              "  - {name: b, at: [[2 ft, 1 ft]], like: a}\n");
  BOOST_TEST(read.diagnostics.front().slug == "design/missing-key");
  const auto is_circular = [](const Diagnostic& diagnostic) { return diagnostic.slug == "design/circular-like"; };
  BOOST_TEST(std::count_if(read.diagnostics.begin(), read.diagnostics.end(), is_circular) == 1);
}

BOOST_AUTO_TEST_CASE(a_repeat_beyond_reason_is_refused) {
  std::string pots = "containers:\n";
  for (const char* name : {"a", "b", "c"}) {
    pots += std::string("  - {name: ") + name +
            ", at: [[1 ft, 1 ft]], emitter: {flow: 1 gph}, feed: trunk, repeat: {count: 1000, step: east 1 ft}}\n";
  }
  const Read read = read_text(kHead + kTrunk + pots);
  BOOST_TEST(slugs_of(read.diagnostics) == "design/too-many");
}

BOOST_AUTO_TEST_CASE(all_errors_come_in_one_go_with_the_nearest_word) {
  const Read read = read_text(
      "teetally: design 1\n"
      "units: {length: ft}\n"
      "source: {thred: 3/4 in hose}\n"
      "lines: [{name: trunk, from: tap, walk: [esat 3 ft]}]\n"
      "beds: [{name: b, corner: [1, 1], size: [4, 8], rows: {count: 2}, hight: 12 in, feed: trnuk,\n"
      "        emitter line: {size: 1/4 in, spacing: 12 in, flow: 5}}]\n");
  const std::string text = all_text(read.diagnostics);
  for (const char* word : {"'thread'", "'east'", "'height'", "'trunk'", "gph"}) {
    BOOST_TEST(text.find(word) != std::string::npos, word << " in\n" << text);
  }
}

BOOST_AUTO_TEST_CASE(a_parameter_the_design_lacks_cannot_be_set) {
  const Read read = read_text(kHead + kTrunk + kPots, {{"rows", "4"}});
  BOOST_TEST(slugs_of(read.diagnostics) == "design/unknown-parameter");
}
