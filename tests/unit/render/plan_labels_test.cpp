// Labels never cover one another, a symbol or the edge, however crowded the sheet is; what finds no room is named.
#include <boost/test/unit_test.hpp>
#include <random>

#include "render/plan/labels.h"

using namespace teetally;

namespace {

struct Crowd {
  std::vector<Label> labels;
  LabelRoom room;
};

Crowd crowd_of(std::size_t count, unsigned seed) {
  std::mt19937 random(seed);  // the engine's numbers are the same everywhere; distributions' are not
  Crowd crowd;
  crowd.room.sheet = {0, 0, 400, 300};
  for (std::size_t i = 0; i < count; ++i) {
    const PlanSpot spot = {static_cast<double>(random() % 400), static_cast<double>(random() % 300)};
    crowd.labels.push_back({{"N" + std::to_string(10 + i % 90)}, 10, spot, 6, false, 180, ""});
    crowd.room.symbols.push_back({spot.x - 6, spot.y - 6, spot.x + 6, spot.y + 6});
    crowd.room.strokes.push_back({spot, {static_cast<double>(random() % 400), spot.y}});
  }
  return crowd;
}

void check_apart(const Crowd& crowd, const LabelPlan& plan) {
  for (std::size_t i = 0; i < plan.placed.size(); ++i) {
    BOOST_TEST(holds(crowd.room.sheet, plan.placed[i].box));
    for (std::size_t j = i + 1; j < plan.placed.size(); ++j) {
      BOOST_TEST(!overlap(plan.placed[i].box, plan.placed[j].box));
    }
    for (const Box& symbol : crowd.room.symbols) BOOST_TEST(!overlap(plan.placed[i].box, symbol));
  }
}

}  // namespace

BOOST_AUTO_TEST_SUITE(plan_labels)

BOOST_AUTO_TEST_CASE(crowded_labels_stay_apart_and_none_is_lost) {
  for (const std::size_t count : {5u, 40u, 120u, 300u}) {
    const Crowd crowd = crowd_of(count, static_cast<unsigned>(count));
    const LabelPlan plan = place_labels(crowd.labels, crowd.room);
    check_apart(crowd, plan);
    BOOST_TEST(plan.placed.size() + plan.without_room.size() == count);
    if (count <= 40) BOOST_TEST(plan.without_room.empty());
  }
}

BOOST_AUTO_TEST_CASE(a_label_that_moves_away_gets_a_leader) {
  LabelRoom room{{0, 0, 400, 300}, {}, {}};
  const Label lone{{"N01"}, 10, {200, 150}, 6, false, 180, ""};
  BOOST_TEST(!place_labels({lone}, room).placed.front().leader.has_value());
  room.symbols.push_back({170, 130, 230, 170});
  const LabelPlan plan = place_labels({lone}, room);
  BOOST_REQUIRE_EQUAL(plan.placed.size(), 1u);
  BOOST_TEST(plan.placed.front().leader.has_value());
}

BOOST_AUTO_TEST_CASE(a_label_larger_than_the_sheet_is_left_out) {
  const LabelRoom room{{0, 0, 20, 20}, {}, {}};
  const LabelPlan plan = place_labels({{{"a long name"}, 10, {10, 10}, 6, true, 180, ""}}, room);
  BOOST_TEST(plan.placed.empty());
  BOOST_TEST(plan.without_room.size() == 1u);
}

BOOST_AUTO_TEST_CASE(the_part_of_a_line_in_a_box) {
  const Box box{0, 0, 10, 10};
  BOOST_TEST(length_inside({{-5, 5}, {15, 5}}, box) == 10.0);
  BOOST_TEST(length_inside({{2, 2}, {2, 6}}, box) == 4.0);
  BOOST_TEST(length_inside({{-5, -5}, {-5, 20}}, box) == 0.0);
  BOOST_TEST(length_inside({{20, 0}, {0, 20}}, box) == 0.0);  // touches the corner only
}

BOOST_AUTO_TEST_CASE(markup_is_escaped_and_numbers_are_short) {
  BOOST_TEST(escape_markup("<a href=\"x\">&'") == "&lt;a href=&quot;x&quot;&gt;&amp;&#39;");
  BOOST_TEST(escape_markup("\x1b[31m").find('\x1b') == std::string::npos);
  BOOST_TEST(sheet_number(-0.04) == "0");
  BOOST_TEST(sheet_number(-1.25) == "-1.3");
  BOOST_TEST(sheet_number(12.0) == "12");
}

BOOST_AUTO_TEST_SUITE_END()
