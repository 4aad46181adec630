#include <boost/test/unit_test.hpp>
#include <string>

#include "teetally/needs.h"

using namespace teetally;

namespace {

struct Read {
  std::optional<Takeoff> takeoff;
  std::string text;  // of all diagnostics
};

Read read(const std::string& text, const std::string& name = "list.yaml") {
  Diagnostics diagnostics;
  Read result;
  result.takeoff = read_parts_list(source_from_text(name, text), shipped_vocabulary(), diagnostics);
  for (const Diagnostic& diagnostic : diagnostics.in_order()) result.text += to_text(diagnostic);
  return result;
}

Read read_csv_list(const std::string& text) { return read(text, "list.csv"); }

bool says(const Read& result, const std::string& slug) {
  return result.text.find("[" + slug + "]") != std::string::npos;
}

const std::string kHead = "teetally: parts list 1\n";

}  // namespace

BOOST_AUTO_TEST_SUITE(parts_list)

BOOST_AUTO_TEST_CASE(parts_become_needs_in_the_order_of_the_vocabulary) {
  const Read result = read(kHead +
                           "name: A few parts\n"
                           "units: {length: ft}\n"
                           "parts:\n"
                           "  - {kind: tee, size: 1/2 in, branch size: 1/2 in, count: 3}\n"
                           "  - {kind: supply tubing, size: 1/2 in, length: 84 ft 6 in}\n"
                           "  - {kind: other, name: rain barrel, count: 1, for: corner}\n");
  BOOST_TEST(result.text == "");
  BOOST_REQUIRE(result.takeoff);
  BOOST_TEST(result.takeoff->name == "A few parts");
  const auto& needs = result.takeoff->needs;
  BOOST_REQUIRE(needs.size() == 3u);
  BOOST_TEST(needs[0].id == "N01");
  BOOST_TEST(needs[0].part.kind == "supply tubing");
  BOOST_TEST(needs[0].amount == 84 * 3048 + 6 * 254);
  BOOST_TEST(needs[0].by_length);
  BOOST_TEST(needs[1].part.kind == "tee");
  BOOST_TEST(needs[1].amount == 3);
  BOOST_TEST(needs[1].systems.size() == 3u);
  BOOST_TEST(needs[2].part.kind == "other");
  BOOST_TEST(needs[2].systems.empty());
  BOOST_TEST(needs[2].reasons.at(0).where == "corner");
  BOOST_TEST(needs[2].reasons.at(0).place.line == 7);
}

BOOST_AUTO_TEST_CASE(csv_says_the_same_as_yaml) {
  const Read yaml = read(kHead +
                         "parts:\n"
                         "  - {kind: tee, size: 1/2 in, branch size: 1/2 in, count: 3}\n"
                         "  - {kind: supply tubing, size: 1/2 in, length: 84 ft 6 in}\n"
                         "  - {kind: hold-down, size: [1/4 in, 1/2 in], count: 9}\n");
  const Read csv = read_csv_list(
      "kind,size,branch size,count,length (ft)\n"
      "tee,1/2 in,1/2 in,3,\n"
      "supply tubing,1/2 in,,,84.5\n"
      ",,,,\n"
      "\"hold-down\", 1/4 in | 1/2 in ,,9,\n");
  BOOST_TEST(yaml.text == "");
  BOOST_TEST(csv.text == "");
  BOOST_REQUIRE((yaml.takeoff && csv.takeoff));
  BOOST_REQUIRE(yaml.takeoff->needs.size() == csv.takeoff->needs.size());
  for (std::size_t i = 0; i < yaml.takeoff->needs.size(); ++i) {
    BOOST_TEST((yaml.takeoff->needs[i].part == csv.takeoff->needs[i].part));
    BOOST_TEST(yaml.takeoff->needs[i].amount == csv.takeoff->needs[i].amount);
    BOOST_TEST((yaml.takeoff->needs[i].systems == csv.takeoff->needs[i].systems));
  }
  BOOST_TEST(csv.takeoff->name == "list");
}

BOOST_AUTO_TEST_CASE(a_csv_header_may_have_capitals_and_every_key_of_a_part) {
  const Read csv = read_csv_list(
      "Kind, Size ,Length (ft),Count,May Be Joined,Colour\n"
      "Supply tubing,1/2 in,40,2,Yes,\n"
      "other,,,1,,green\n");
  BOOST_TEST(csv.text == "");
  BOOST_REQUIRE(csv.takeoff);
  BOOST_REQUIRE(csv.takeoff->needs.size() == 2u);
  BOOST_TEST(csv.takeoff->needs[0].pieces.at(0).may_join);
  BOOST_TEST(csv.takeoff->needs[1].part.attributes.count("Colour") == 1u);
}

BOOST_AUTO_TEST_CASE(one_size_is_one_connected_system_unless_the_list_says_otherwise) {
  const std::string parts =
      "parts:\n"
      "  - {kind: supply tubing, size: 1/2 in, length: 9 ft}\n"
      "  - {kind: tee, size: 1/2 in, branch size: 1/4 in, count: 3}\n"
      "  - {kind: tape connector, size: 5/8 in, from size: 1/2 in, count: 1}\n";
  const Read connected = read(kHead + parts);
  BOOST_REQUIRE(connected.takeoff);
  BOOST_TEST(connected.takeoff->systems.size() == 3u);
  BOOST_TEST((connected.takeoff->needs[0].systems == std::vector<int>{0}));
  BOOST_TEST((connected.takeoff->needs[1].systems == std::vector<int>{0, 0, 1}));
  BOOST_TEST((connected.takeoff->needs[2].systems == std::vector<int>{2, 0}));
  BOOST_TEST(connected.takeoff->systems[2].name == "5/8 in");

  const Read loose = read(kHead + "connected: no\n" + parts);
  BOOST_REQUIRE(loose.takeoff);
  BOOST_TEST(loose.takeoff->systems.empty());
  BOOST_TEST(loose.takeoff->needs[1].systems.empty());
}

BOOST_AUTO_TEST_CASE(named_systems_of_one_size_stay_apart) {
  const Read result = read(kHead +
                           "parts:\n"
                           "  - {kind: elbow, size: 1/2 in, count: 3, system: front}\n"
                           "  - {kind: elbow, size: 1/2 in, count: 4, system: back}\n"
                           "  - {kind: elbow, size: 1/2 in, count: 5, system: front}\n");
  BOOST_REQUIRE(result.takeoff);
  BOOST_REQUIRE(result.takeoff->systems.size() == 2u);
  BOOST_TEST(result.takeoff->systems[0].name == "1/2 in, front");
  BOOST_REQUIRE(result.takeoff->needs.size() == 2u);
  BOOST_TEST(result.takeoff->needs[0].amount == 8);
  BOOST_TEST(result.takeoff->needs[0].reasons.size() == 2u);
  BOOST_TEST(result.takeoff->needs[1].amount == 4);
}

BOOST_AUTO_TEST_CASE(a_count_of_tubing_means_uncut_pieces_and_no_count_a_total) {
  const Read result = read(kHead +
                           "parts:\n"
                           "  - {kind: emitter line, size: 1/4 in, length: 12 ft, count: 4}\n"
                           "  - {kind: supply tubing, size: 1/2 in, length: 40 ft}\n");
  BOOST_REQUIRE(result.takeoff);
  const Need& total = result.takeoff->needs[0];
  BOOST_REQUIRE(total.pieces.size() == 1u);
  BOOST_TEST(total.pieces[0].may_join);
  const Need& rows = result.takeoff->needs[1];
  BOOST_TEST(rows.amount == feet(48).tenths_mm);
  BOOST_REQUIRE(rows.pieces.size() == 4u);
  BOOST_TEST((rows.pieces[3].length == feet(12)));
  BOOST_TEST(!rows.pieces[3].may_join);
}

BOOST_AUTO_TEST_CASE(a_fitting_without_a_size_is_warned_about) {
  const Read result = read(kHead + "parts: [{kind: elbow, count: 3}]\n");
  BOOST_TEST(says(result, "needs/size-not-given"));
  BOOST_REQUIRE(result.takeoff);
  BOOST_TEST(result.takeoff->needs[0].systems.empty());
}

BOOST_AUTO_TEST_CASE(what_is_wrong_is_said) {
  BOOST_TEST(says(read("teetally: parts list 2\nparts: [{kind: punch, count: 1}]\n"), "needs/wrong-version"));
  BOOST_TEST(says(read("parts: [{kind: punch, count: 1}]\n"), "needs/missing-key"));
  BOOST_TEST(says(read(kHead), "needs/missing-key"));
  BOOST_TEST(says(read(kHead + "parts: []\n"), "needs/no-parts"));
  BOOST_TEST(says(read(kHead + "parts: 3\n"), "needs/wrong-type"));
  BOOST_TEST(says(read(kHead + "partz: []\nparts: [{kind: punch, count: 1}]\n"), "needs/unknown-key"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: punch}]\n"), "needs/no-amount"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: supply tubing, size: 1/2 in}]\n"), "needs/no-amount"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: punch, count: 0}]\n"), "needs/bad-value"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: punch, length: 3 ft, count: 1}]\n"), "needs/bad-amount"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: supply tubing, size: 1/2 in, length: -3 ft}]\n"), "needs/bad-amount"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: supply tubing, size: 1/2 in, length: 2000 km}]\n"), "needs/bad-value"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: supply tubing, size: 1/2 in, length: 3}]\n"), "needs/bad-value"));
  BOOST_TEST(!says(read(kHead + "parts: [{kind: supply tubing, size: 1/2 in, length: 3}]\n"), "needs/bad-amount"));
  BOOST_TEST(says(read(kHead + "parts: [{kind: te, count: 3}]\n"), "base/unknown-kind"));
  BOOST_TEST(says(read_csv_list(""), "needs/no-parts"));
  BOOST_TEST(says(read_csv_list("kind,count\n"), "needs/no-parts"));
  BOOST_TEST(says(read_csv_list("name,count\ntee,3\n"), "needs/csv-header"));
  BOOST_TEST(says(read_csv_list("kind,count,count\ntee,3,3\n"), "needs/csv-header"));
  BOOST_TEST(says(read_csv_list("kind,count,\npunch,3,stray\n"), "needs/csv-header"));
  BOOST_TEST(says(read_csv_list("kind,count\npunch,\"3\n"), "base/bad-csv"));
}

BOOST_AUTO_TEST_CASE(a_csv_column_that_means_nothing_is_reported_once_unless_the_kind_takes_any_key) {
  const std::string rows = "kind,sise,count\npunch,big,1\npunch,small,1\n";
  const Read result = read_csv_list(rows);
  BOOST_TEST(result.text.find("list.csv:1:6: error: no kind of part has 'sise' [needs/csv-header]") == 0u, result.text);
  BOOST_TEST(result.text.find("did you mean 'size'?") != std::string::npos);
  BOOST_TEST(result.text.find("error:", 20) == std::string::npos, result.text);
  const Read open = read_csv_list("kind,name,colour,count\nother,barrel,green,1\n");
  BOOST_TEST(open.text == "");
  BOOST_REQUIRE(open.takeoff);
  BOOST_TEST(open.takeoff->needs[0].part.attributes.count("colour") == 1u);
}

BOOST_AUTO_TEST_CASE(a_csv_error_points_at_its_cell) {
  const Read result = read_csv_list("kind,count\npunch,1\npunch,many\n");
  BOOST_TEST(result.text.find("list.csv:3:7: error:") != std::string::npos, result.text);
}

BOOST_AUTO_TEST_SUITE_END()

BOOST_AUTO_TEST_SUITE(file_kinds)

BOOST_AUTO_TEST_CASE(the_first_key_tells) {
  const auto kind = [](const std::string& text, const std::string& name = "a.yaml") {
    return kind_of_file(source_from_text(name, text));
  };
  BOOST_TEST((kind("teetally: design 1\n") == FileKind::design));
  BOOST_TEST((kind("# mine\n\n---\nteetally: parts list 1\nparts: [\n") == FileKind::parts_list));
  BOOST_TEST((kind("'teetally': \"catalog 1\"  # ours\r\n") == FileKind::catalog));
  BOOST_TEST((kind("teetally: practice 7\n") == FileKind::practice));
  BOOST_TEST((kind("teetally: vocabulary\n") == FileKind::vocabulary));
  BOOST_TEST((kind("teetally: on hand 1\n") == FileKind::on_hand));
  BOOST_TEST((kind("teetally: pool 1\n") == FileKind::pool));
  BOOST_TEST((kind("teetally: designs 1\n") == FileKind::unknown));
  BOOST_TEST((kind("name: x\nteetally: design 1\n") == FileKind::unknown));
  BOOST_TEST((kind("") == FileKind::unknown));
  BOOST_TEST((kind("kind,count\n", "List.CSV") == FileKind::parts_list));
}

BOOST_AUTO_TEST_SUITE_END()
