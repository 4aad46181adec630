#include "teetally/base/part.h"

#include <boost/test/unit_test.hpp>

#include "teetally/base/report.h"
#include "teetally/base/vocabulary.h"

namespace teetally {
namespace {

struct Reading {
  std::optional<PartSpec> part;
  std::string text;
  std::string complaints;  // "column slug: message (help)", each on a line
};

Reading read(const std::string& mapping, const BareUnits& bare = {}) {
  static const Vocabulary vocabulary = shipped_vocabulary();
  Reading reading;
  Diagnostics diagnostics;
  const YamlNode root = read_yaml(source_from_text("f.yaml", mapping), diagnostics);
  Fields fields(root, "base", "a part", bare, diagnostics);
  reading.part = read_part(fields, vocabulary, bare, diagnostics);
  fields.count("count", 1, 1000);
  fields.finish();
  if (reading.part) reading.text = to_text(*reading.part, UnitSystem::us);
  for (const Diagnostic& entry : diagnostics.in_order()) {
    reading.complaints += std::to_string(entry.place.column) + " " + entry.slug + ": " + entry.message +
                          (entry.help.empty() ? "" : " (" + entry.help + ")") + "\n";
  }
  return reading;
}

std::string why_not(const std::string& wanted, const std::string& item) {
  static const Vocabulary vocabulary = shipped_vocabulary();
  return mismatch(read(wanted).part.value(), read(item).part.value(), vocabulary, UnitSystem::us).value_or("serves");
}

}  // namespace

BOOST_AUTO_TEST_SUITE(part)

BOOST_AUTO_TEST_CASE(parts_are_read_and_print) {
  BOOST_TEST(read("{kind: tee, size: 1/2 in, branch size: 3/4 in, count: 3}").text ==
             "tee, size 1/2 in, branch size 3/4 in");
  BOOST_TEST(read("{kind: tees, size: 1/2 in}").text == "tee, size 1/2 in");
  BOOST_TEST(read("{kind: Crosses, size: 1/2 in}").text == "cross, size 1/2 in");
  BOOST_TEST(read("{kind: Tee, size: '  1/2   IN '}").text == "tee, size 1/2 in");
  BOOST_TEST(read("{kind: emitter line, spacing: 12 in, flow: 0.5 gph, compensating: true}").text ==
             "emitter line, compensating yes, flow 0.5 gph, spacing 1 ft");
  BOOST_TEST(read("{kind: emitter, compensating: no}").text == "emitter, compensating no");
  BOOST_TEST(read("{kind: sprayer, pattern: [half, full, half]}").text == "sprayer, pattern full or half");
  BOOST_TEST(read("{kind: pressure regulator, flow: 0.2 gpm to 8 gpm}").text ==
             "pressure regulator, flow 12 gph to 480 gph");
  BOOST_TEST(read("{kind: filter, mesh: 150}").text == "filter, mesh 150");
  BOOST_TEST(read("{kind: hole plug}").text == "hole plug");
  BOOST_TEST(read("{kind: emitter, flow: 1}", {"", "gph", "", ""}).text == "emitter, flow 1 gph");
}

BOOST_AUTO_TEST_CASE(an_open_kind_takes_any_name) {
  const Reading reading = read("{kind: other, name: Rain Barrel, colour: [Green, blue], count: 2}");
  BOOST_TEST(reading.complaints == "");
  BOOST_TEST(reading.text == "other, colour Green or blue, name Rain Barrel");
}

BOOST_AUTO_TEST_CASE(mistakes_in_parts) {
  BOOST_TEST(read("{kind: te, size: 1/2 in}").complaints ==
             "8 base/unknown-kind: unknown kind of part 'te' (did you mean 'tee'?)\n");
  BOOST_TEST(read("{kind: crossses}").complaints ==
             "8 base/unknown-kind: unknown kind of part 'crossses' (did you mean 'cross'?)\n");
  BOOST_TEST(read("{kind: hovercraft}").complaints.find("'other' takes any name") != std::string::npos);
  BOOST_TEST(read("{size: 1/2 in}").complaints == "1 base/missing-key: a part has no key 'kind'\n");
  BOOST_TEST(read("tee").complaints == "1 base/wrong-type: a part is the text 'tee'; expected keys and values\n");
  BOOST_TEST(read("{kind: tee, sise: 1/2 in}").complaints ==
             "13 base/unknown-key: unknown key 'sise' in a part (did you mean 'size'?)\n");
  const Reading wrong = read("{kind: filter, mesh: 0x10, flow: 5, thread: }");
  BOOST_TEST(!wrong.part);
  BOOST_TEST(wrong.complaints ==
             "22 base/bad-attribute: 'mesh': '0x10' is not a decimal number; write it with the digits 0 to 9\n"
             "34 base/bad-attribute: 'flow': '5' is not a flow: it has no unit, and this file declares none for a bare "
             "number; write it like 0.5 gph\n"
             "37 base/bad-attribute: 'thread': it has no value; expected a word or a list of words\n");
}

BOOST_AUTO_TEST_CASE(ranges_have_a_unit_at_both_ends_and_run_upwards) {
  const auto complaint = [](const std::string& flow) {
    return read("{kind: filter, flow: " + flow + "}", {"", "gph", "", ""}).complaints;
  };
  BOOST_TEST(complaint("10 to 60") == "");
  BOOST_TEST(complaint("10 gph to 60 gph") == "");
  BOOST_TEST(complaint("10 to 60 l/h") ==
             "22 base/bad-attribute: 'flow': '10 to 60 l/h' has a unit at one end only; give both ends theirs\n");
  BOOST_TEST(complaint("60 gph to 10 gph") ==
             "22 base/bad-attribute: 'flow': '60 gph to 10 gph' runs backwards; write the smaller end first\n");
  BOOST_TEST(complaint("10 gph to") != "");
  BOOST_TEST(complaint("[1 gph, 2 gph]") ==
             "22 base/bad-attribute: 'flow': it is a list; expected one value, or a range such as '1 to 2'\n");
}

BOOST_AUTO_TEST_CASE(words_share_one_form) {
  BOOST_TEST((word_value("  3/4  In Hose ") == word_value("3/4 in hose")));
  BOOST_TEST((read("{kind: sprayer, pattern: [b, a]}").part == read("{kind: sprayer, pattern: [A, B]}").part));
}

BOOST_AUTO_TEST_CASE(the_json_form) {
  BOOST_TEST(to_text(to_json(*read("{kind: pressure regulator, pressure: 25 psi, flow: 1 l/h to 2 l/h}").part), -1) ==
             R"({"kind":"pressure regulator","attributes":{"flow":{"low":1000000000,"high":2000000000,"unit":"nl/h"},)"
             R"("pressure":{"value":172369,"unit":"Pa"}}})");
  BOOST_TEST(to_text(to_json(*read("{kind: timer, outlets: 2, thread: [a, b]}").part), -1) ==
             R"({"kind":"timer","attributes":{"outlets":2,"thread":["a","b"]}})");
}

BOOST_AUTO_TEST_CASE(kinds_and_equal_words) {
  BOOST_TEST(why_not("{kind: tee, size: 1/2 in}", "{kind: tee, size: 1/2 IN, branch size: 1/4 in}") == "serves");
  BOOST_TEST(why_not("{kind: tee, size: 1/2 in}", "{kind: elbow, size: 1/2 in}") == "it is an elbow, wanted a tee");
  BOOST_TEST(why_not("{kind: tee, size: 1/2 in}", "{kind: tee, size: 3/4 in}") == "size is 3/4 in, wanted 1/2 in");
  BOOST_TEST(why_not("{kind: tee, size: 1/2 in}", "{kind: tee}") == "size is not stated, wanted 1/2 in");
  BOOST_TEST(why_not("{kind: tee}", "{kind: tee, size: 3/4 in}") == "serves");
  BOOST_TEST(why_not("{kind: other, name: Barrel}", "{kind: other, name: barrel}") == "serves");
  BOOST_TEST(why_not("{kind: hold-down, size: 1/2 in}", "{kind: hold-down, size: [1/4 in, 1/2 in]}") == "serves");
}

BOOST_AUTO_TEST_CASE(numbers_by_each_rule) {
  BOOST_TEST(why_not("{kind: timer, outlets: 2}", "{kind: timer, outlets: 4}") == "serves");
  BOOST_TEST(why_not("{kind: timer, outlets: 4}", "{kind: timer, outlets: 2}") == "outlets is 2, wanted at least 4");
  BOOST_TEST(why_not("{kind: emitter, flow: 0.5 gph}", "{kind: emitter, flow: 0.5 gph}") == "serves");
  BOOST_TEST(why_not("{kind: emitter, flow: 0.5 gph}", "{kind: emitter, flow: 1 gph}") ==
             "flow is 1 gph, wanted 0.5 gph");
  BOOST_TEST(why_not("{kind: emitter, flow: 0.4 gph to 0.6 gph}", "{kind: emitter, flow: 0.5 gph}") == "serves");
  const std::string regulator = "{kind: pressure regulator, flow: 0.2 gpm to 8 gpm}";
  BOOST_TEST(why_not("{kind: pressure regulator, flow: 100 gph}", regulator) == "serves");
  BOOST_TEST(why_not("{kind: pressure regulator, flow: 5 gph}", regulator) ==
             "flow is 12 gph to 480 gph, wanted 5 gph");
}

BOOST_AUTO_TEST_CASE(at_most_is_met_by_a_range_that_begins_low_enough) {
  KindType barrel;
  barrel.name = "barrel";
  barrel.attributes = {{"weight", Dimension::count, Match::at_most, "", {}}};
  const Vocabulary vocabulary{{barrel}};
  const PartSpec wanted{"barrel", {{"weight", number_value(Dimension::count, 10)}}};
  const auto why = [&](std::int64_t low, std::int64_t high) {
    const PartSpec item{"barrel", {{"weight", range_value(Dimension::count, low, high)}}};
    return mismatch(wanted, item, vocabulary, UnitSystem::us).value_or("serves");
  };
  BOOST_TEST(why(10, 10) == "serves");
  BOOST_TEST(why(5, 20) == "serves");
  BOOST_TEST(why(11, 20) == "weight is 11 to 20, wanted at most 10");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
