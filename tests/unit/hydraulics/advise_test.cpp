// Advice is solved before it is given: what is offered works, the fewest zones that do are enough.
#include <boost/test/unit_test.hpp>

#include "hydraulics/regroup.h"
#include "unit/hydraulics/made_garden.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

SizedGarden sized(const Garden& garden) {
  Diagnostics diagnostics;
  SizedGarden out = size_garden(garden, made::practice(), UnitSystem::us, diagnostics);
  BOOST_TEST(!diagnostics.has_errors());
  return out;
}

std::vector<Advice> advice(const Garden& garden) {
  return advise(garden, sized(garden), 0, made::practice(), UnitSystem::us);
}

// Beds of four rows at the end of 20 ft of tubing that may be sized.
made::Maker beds(int count, int row_feet, double gph = 0.5) {
  made::Maker maker;
  const int line = maker.element("line 'trunk'");
  const int end = maker.line(0, feet(20), "", line, "trunk");
  for (int i = 0; i < count; ++i) {
    const int bed = maker.element("bed '" + std::string(1, static_cast<char>('a' + i)) + "'");
    for (int row = 0; row < 4; ++row) maker.row(end, feet(row_feet), inches(12), made::emitter(gph), bed);
  }
  return maker;
}

bool any_says(const std::vector<Advice>& all, const std::string& part) {
  for (const Advice& one : all) {
    if (one.words.find(part) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(advising)

BOOST_AUTO_TEST_CASE(a_garden_that_works_needs_none) { BOOST_TEST(advice(beds(2, 12).garden).empty()); }

// Six beds at 24 gph each, with 100 gph from the open tap: 80 gph would keep the margin, but at 72 gph the tap no
// longer has the pressure; three zones of two beds are enough.
BOOST_AUTO_TEST_CASE(too_much_at_once_is_split_into_the_fewest_zones) {
  made::Maker maker = beds(6, 12);
  maker.garden.source.flow = Flow{100 * made::kGph};
  const std::vector<Advice> all = advice(maker.garden);
  BOOST_REQUIRE(!all.empty());
  BOOST_TEST(any_says(
      all, "run it as 3 zones, one after another: bed 'a' and bed 'd' / bed 'b' and bed 'e' / bed 'c' and bed 'f'"));
  BOOST_TEST(!any_says(all, "4 zones"));
  for (const Advice& one : all) {
    BOOST_TEST((one.then == Verdict::works));
    BOOST_TEST(one.outcome.find("works: ") == 0u, one.outcome);
  }
  bool edit = false;
  for (const Advice& one : all) edit = edit || one.edit == "zones: {all 1: [a, d], all 2: [b, e], all 3: [c, f]}";
  BOOST_TEST(edit);
  BOOST_TEST(sized(maker.garden).zones[0].advice.size() == all.size());
}

BOOST_AUTO_TEST_CASE(long_rows_are_halved_or_replaced) {
  const std::vector<Advice> all = advice(beds(1, 65).garden);
  BOOST_TEST(any_says(all, "halve the rows of bed 'a'"));
  BOOST_TEST(any_says(all, "half the flow in bed 'a' (0.25 gph instead of 0.5 gph)"));
  BOOST_TEST(!any_says(all, "zones"));
}

// Rows too long and a tap too weak: no single change does it.
BOOST_AUTO_TEST_CASE(changes_are_combined_when_none_does_it_alone) {
  made::Maker maker = beds(4, 60);
  maker.garden.source.flow = Flow{210 * made::kGph};
  maker.garden.source.static_pressure = made::psi(60);
  const std::vector<Advice> all = advice(maker.garden);
  BOOST_REQUIRE(!all.empty());
  for (const Advice& one : all) BOOST_TEST((one.then == Verdict::works), one.words << ": " << one.outcome);
}

BOOST_AUTO_TEST_CASE(without_a_bucket_test_it_says_how_to_measure) {
  made::Maker maker = beds(2, 12);
  maker.garden.source.flow.reset();
  const std::vector<Advice> all = advice(maker.garden);
  BOOST_REQUIRE(all.size() == 1u);
  BOOST_TEST(any_says(all, "fill a bucket"));
}

BOOST_AUTO_TEST_CASE(groups_are_balanced) {
  made::Maker maker;
  const int counts[] = {10, 7, 6, 5, 2};
  for (int i = 0; i < 5; ++i) maker.outlet(0, made::emitter(1), maker.element("pots"), counts[i]);
  const auto groups = balanced_groups(maker.garden, 0, 2);
  BOOST_REQUIRE(groups.size() == 2u);
  BOOST_TEST(groups[0] == (std::vector<int>{0, 3}), boost::test_tools::per_element());
  BOOST_TEST(groups[1] == (std::vector<int>{1, 2, 4}), boost::test_tools::per_element());
  BOOST_TEST(balanced_groups(maker.garden, 0, 9).size() == 5u);
}

BOOST_AUTO_TEST_CASE(a_header_is_fed_from_its_middle) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int run = maker.run("header", LegRole::header, "1/2 in", bed);
  const int start = maker.line(0, feet(5), "1/2 in", bed);
  int at = start;
  for (int i = 0; i < 4; ++i) {
    const int next = maker.node();
    maker.leg(at, next, feet(2), run);
    at = next;
  }
  Garden& garden = maker.garden;
  BOOST_TEST(feed_header_from_middle(garden, run));
  BOOST_TEST(garden.legs[0].to == 3);
  BOOST_TEST((garden.legs[0].length == feet(9)));
  BOOST_TEST(garden.legs[1].to == start);  // the near half now runs back
  BOOST_TEST(garden.legs[2].from == 3);
  BOOST_TEST(garden.legs[3].from == 3);
  BOOST_TEST(!feed_header_from_middle(garden, 1));
}

BOOST_AUTO_TEST_CASE(a_row_is_halved) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int row = maker.row(0, feet(11), inches(12), made::emitter(0.5), bed);
  halve_row(maker.garden, row);
  BOOST_TEST(maker.garden.runs.size() == 2u);
  BOOST_TEST(maker.garden.runs[0].emitter_count == 6);
  BOOST_TEST(maker.garden.runs[1].emitter_count == 5);
  BOOST_TEST((maker.garden.legs[0].length + maker.garden.legs[1].length == feet(11)));
  BOOST_TEST(maker.garden.legs[1].from == 0);
}

BOOST_AUTO_TEST_SUITE_END()
