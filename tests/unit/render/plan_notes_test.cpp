// Notes below a crowded plan: what belongs to an element moves there, all else stays, and nothing is told twice.
#include <boost/test/unit_test.hpp>

#include "render/plan/notes.h"

using namespace teetally;

namespace {

Label label_of(const std::string& text, int element) {
  Label label;
  label.lines = {text};
  label.element = element;
  return label;
}

ElementName bed(int element, const std::string& name, const std::string& rows) {
  return {element, name, "1 ft high", rows, {100, 100}, 60};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(plan_notes)

BOOST_AUTO_TEST_CASE(what_belongs_to_elements_moves_into_notes) {
  const std::vector<Label> labels = {label_of("trunk", -1), label_of("3 N09", 4), label_of("1/2 in, N02", 4),
                                     label_of("6 ft", -1)};
  const NotedPlan noted = with_notes(labels, {bed(4, "greens", "4 rows of 9 ft, N04")});
  BOOST_TEST_REQUIRE(noted.labels.size() == 3u);
  BOOST_TEST(noted.labels[0].lines.front() == "(1)");
  BOOST_TEST(noted.labels[1].lines.front() == "trunk");
  BOOST_TEST(noted.labels[2].lines.front() == "6 ft");
  BOOST_TEST_REQUIRE(noted.lines.size() == 1u);
  BOOST_TEST(noted.lines[0].numbers == "(1)");
  BOOST_TEST(noted.lines[0].words == "greens: 1 ft high; 4 rows of 9 ft, N04; 3 N09; 1/2 in, N02");
}

BOOST_AUTO_TEST_CASE(neighbours_that_are_alike_share_a_line) {
  const std::vector<Label> labels = {label_of("3 N09", 1), label_of("3 N09", 2), label_of("2 N09", 3)};
  const NotedPlan noted =
      with_notes(labels, {bed(1, "a", "3 rows, N04"), bed(2, "b", "3 rows, N04"), bed(3, "c", "3 rows, N04")});
  BOOST_TEST_REQUIRE(noted.lines.size() == 2u);
  BOOST_TEST(noted.lines[0].numbers == "(1) to (2)");
  BOOST_TEST(noted.lines[0].words == "a and b, each: 1 ft high; 3 rows, N04; 3 N09");
  BOOST_TEST(noted.lines[1].numbers == "(3)");
  BOOST_TEST(noted.lines[1].words == "c: 1 ft high; 3 rows, N04; 2 N09");
  BOOST_TEST(noted.labels.size() == 3u);
}

BOOST_AUTO_TEST_CASE(notes_take_room_and_none_take_none) {
  BOOST_TEST(note_block({}, 50).bottom == 50);
  BOOST_TEST(note_block({}, 50).elements.empty());
  const NoteBlock block = note_block({{"(1)", "greens: <3> rows"}}, 50);
  BOOST_TEST(block.bottom > 80);
  BOOST_TEST(block.elements.find("greens: &lt;3&gt; rows") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
