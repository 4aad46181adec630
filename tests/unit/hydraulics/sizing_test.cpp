// Sizes: the rule of thumb and the computed check, both shown; never smaller than what is fed.
#include "hydraulics/sizing.h"

#include <boost/test/unit_test.hpp>

#include "hydraulics/tubing.h"
#include "unit/hydraulics/made_garden.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

std::vector<SizeChoice> sized(Garden& garden, const Practice& practice = made::practice()) {
  Diagnostics diagnostics;
  auto choices = choose_sizes(garden, practice, settings_of(practice), diagnostics);
  BOOST_TEST(!diagnostics.has_errors());
  return choices;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(sizing)

BOOST_AUTO_TEST_CASE(a_small_garden_gets_the_smallest_size) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int end = maker.line(0, feet(30), "", bed);
  for (int i = 0; i < 3; ++i) maker.row(end, feet(12), inches(12), made::emitter(0.5), bed);
  const auto choices = sized(maker.garden);
  BOOST_TEST(maker.garden.runs[0].size == "1/2 in");
  BOOST_TEST(maker.garden.legs[0].size == "1/2 in");
  BOOST_TEST(choices[0].by_rule == "1/2 in");
  BOOST_TEST(choices[0].by_computation == "1/2 in");
  BOOST_TEST(maker.garden.runs[1].size == "1/4 in");  // as given
}

// 220 ft: the rule asks for 3/4 in, the little flow would be content with 1/2 in.
BOOST_AUTO_TEST_CASE(the_two_may_disagree) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int end = maker.line(0, feet(220), "", bed);
  maker.outlet(end, made::emitter(1), bed, 20);
  const auto choices = sized(maker.garden);
  BOOST_TEST(maker.garden.runs[0].size == "3/4 in");
  BOOST_TEST(choices[0].by_rule == "3/4 in");
  BOOST_TEST(choices[0].by_computation == "1/2 in");
  Practice practice = made::practice();
  practice.use_rule_of_thumb.value = false;
  maker.garden.runs[0].size.clear();
  sized(maker.garden, practice);
  BOOST_TEST(maker.garden.runs[0].size == "1/2 in");
}

// 198 gph over 195 ft of 1/2 in, and a few feet up, pass the rule; emitters that follow pressure would differ too much.
BOOST_AUTO_TEST_CASE(computation_may_ask_for_more) {
  made::Maker maker;
  const int bed = maker.element("bed");
  int at = 0;
  const int trunk = maker.run("trunk", LegRole::supply, "", bed);
  for (int i = 0; i < 5; ++i) {
    const int next = maker.node(feet(4 * i));
    maker.leg(at, next, feet(39), trunk);
    maker.outlet(next, made::emitter(1), bed, i < 4 ? 5 : 178);
    at = next;
  }
  const auto choices = sized(maker.garden);
  BOOST_TEST(choices[0].by_rule == "1/2 in");
  BOOST_TEST(choices[0].by_computation == "3/4 in");
  BOOST_TEST(maker.garden.runs[0].size == "3/4 in");
}

BOOST_AUTO_TEST_CASE(never_smaller_than_what_it_feeds) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int middle = maker.line(0, feet(5), "", bed, "first");
  const int end = maker.line(middle, feet(300), "", bed, "second");
  maker.outlet(end, made::emitter(1), bed, 10);
  sized(maker.garden);
  BOOST_TEST(maker.garden.runs[1].size == "3/4 in");
  BOOST_TEST(maker.garden.runs[0].size == "3/4 in");
}

BOOST_AUTO_TEST_CASE(a_given_size_is_kept) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int end = maker.line(0, feet(220), "1/2 in", bed);
  maker.outlet(end, made::emitter(1), bed, 20);
  const auto choices = sized(maker.garden);
  BOOST_TEST(!choices[0].sized);
  BOOST_TEST(maker.garden.runs[0].size == "1/2 in");
}

BOOST_AUTO_TEST_CASE(a_ring_shares_its_flow) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int left = maker.line(0, feet(100), "", bed, "left"), right = maker.line(0, feet(100), "", bed, "right");
  const int far = maker.line(left, feet(50), "", bed, "left on");
  const int closing = maker.run("right on", LegRole::supply, "", bed);
  maker.leg(right, far, feet(50), closing);
  maker.outlet(far, made::emitter(1), bed, 240);
  const auto choices = sized(maker.garden);
  // Half each way: 120 gph.
  BOOST_TEST(std::abs(choices[0].rated_flow / (120 * 3.785411784e-3 / 3600) - 1) < 1e-6);
  BOOST_TEST(choices[0].by_rule == "1/2 in");
}

BOOST_AUTO_TEST_CASE(nothing_to_choose_from_is_an_error) {
  made::Maker maker;
  maker.line(0, feet(10), "", maker.element("bed"));
  Practice practice = made::practice();
  practice.sizes.resize(1);
  Diagnostics diagnostics;
  choose_sizes(maker.garden, practice, settings_of(practice), diagnostics);
  BOOST_REQUIRE(diagnostics.in_order().size() == 1u);
  BOOST_TEST(diagnostics.in_order()[0].slug == "hydraulics/no-sizes");
}

BOOST_AUTO_TEST_CASE(unknown_sizes_are_told_once) {
  made::Maker maker;
  const int bed = maker.element("bed");
  maker.line(0, feet(10), "5/8 in", bed);
  maker.line(0, feet(10), "5/8 in", bed);
  maker.line(0, feet(10), "odd", bed);
  Diagnostics diagnostics;
  check_sizes(maker.garden, made::practice(), diagnostics);
  BOOST_REQUIRE(diagnostics.in_order().size() == 2u);
  BOOST_TEST(diagnostics.in_order()[0].slug == "hydraulics/unknown-size");
  BOOST_TEST(std::abs(inside_of(made::practice(), "5/8 in") - 0.015875) < 1e-9);
}

BOOST_AUTO_TEST_SUITE_END()
