// What must hold for any takeoff: its reasons add up, and its counts follow from the garden's shape alone, not from
// where it lies, what things are called, or in how many steps a line was measured.
#include <boost/test/unit_test.hpp>
#include <map>
#include <random>
#include <set>
#include <string>

#include "needs/worksheet.h"
#include "unit/needs/hand_garden.h"
#include "unit/needs/laid_takeoff.h"

using namespace teetally;

namespace {

using Amounts = std::map<std::string, std::int64_t>;

Amounts amounts_of(const Takeoff& takeoff) {
  Amounts amounts;
  for (const Need& need : takeoff.needs) amounts[to_text(need.part, UnitSystem::us)] += need.amount;
  for (const Need& need : takeoff.covered) amounts[to_text(need.part, UnitSystem::us)] += need.amount;
  return amounts;
}

void check_same(const Amounts& one, const Amounts& other, const std::string& what) {
  for (const auto& [part, amount] : one) {
    const auto found = other.find(part);
    BOOST_TEST((found != other.end() && found->second == amount),
               what << ": " << part << " " << amount << " became "
                    << (found == other.end() ? std::string("none") : std::to_string(found->second)));
  }
  BOOST_TEST(one.size() == other.size(), what);
}

void check_sound(const Takeoff& takeoff) {
  std::set<std::string> ids;
  for (const std::vector<Need>* needs : {&takeoff.needs, &takeoff.covered}) {
    for (const Need& need : *needs) {
      BOOST_TEST(adds_up(need), need.id);
      BOOST_TEST(!need.reasons.empty(), need.id);
      BOOST_TEST(ids.insert(need.id).second, need.id);
      BOOST_TEST((need.amount > 0) == (needs == &takeoff.needs), need.id);
      for (const int system : need.systems) BOOST_TEST(system < static_cast<int>(takeoff.systems.size()), need.id);
      std::int64_t pieces = 0, designed_length = 0;
      for (const NeededPiece& piece : need.pieces) pieces += piece.length.tenths_mm;
      for (const Reason& reason : need.reasons) {
        designed_length += need.by_length && reason.reason_class == ReasonClass::design ? reason.amount : 0;
        BOOST_TEST((reason.amount < 0) == (reason.reason_class == ReasonClass::on_site), need.id);
      }
      BOOST_TEST(pieces == designed_length, need.id);
    }
  }
}

// Beds, pots and tape on lines that turn, rise and branch; names and steps are filled in by each test.
std::string garden_text(const std::string& trunk_walk, const std::string& bed_name = "beans",
                        const std::string& pots_name = "pots") {
  return "teetally: design 1\n"
         "name: test\n"
         "units: {length: ft, flow: gph, pressure: psi}\n"
         "source: {at: [0, 0, 2], thread: 3/4 in hose, timer: yes, existing: [{kind: elbow, size: 1/2 in, count: 1}]}\n"
         "lines:\n"
         "  - {name: trunk, from: tap, size: 1/2 in, walk: [" +
         trunk_walk +
         "]}\n"
         "  - {name: side, from: 9 ft along trunk, size: 1/2 in, walk: [west 20 ft]}\n"
         "beds:\n"
         "  - {name: " +
         bed_name +
         ", corner: [14 ft, 4 ft], size: [12 ft, 4 ft], height: 12 in, rows: {count: 3},\n"
         "     emitter line: {size: 1/4 in, spacing: 12 in, flow: 0.5 gph}, header: west, valve: yes,\n"
         "     feed: nearest point of trunk}\n"
         "containers:\n"
         "  - {name: " +
         pots_name +
         ", at: [[7 ft, 9 ft], [7 ft, 11 ft]], emitter: {flow: 1 gph},\n"
         "     feed: nearest point of trunk}\n"
         "tape rows:\n"
         "  - {name: corn, start: [-16 ft, 2 ft], direction: north, length: 30 ft, count: 4, spacing: 3 ft,\n"
         "     toward: east, tape: {size: 5/8 in, spacing: 12 in, flow: 0.3 gph}, feed: nearest point of side}\n";
}

const std::string kWalk = "down 2 ft, east 10 ft, north 24 ft";

Amounts counted_amounts(const std::string& text) {
  const LaidTakeoff laid = take_off_text(text, shipped_practice());
  check_sound(laid.takeoff);
  return amounts_of(laid.takeoff);
}

Point shifted_by(const Point& point, const Point& by) {
  return {point.east + by.east, point.north + by.north, point.up + by.up};
}

Site moved(Site site, const Point& by) {
  site.source.east += by.east;
  site.source.north += by.north;
  site.source.up += by.up;
  for (Bed& bed : site.beds) bed.corner = shifted_by(bed.corner, by);
  for (TapeRows& rows : site.tape_rows) rows.start = shifted_by(rows.start, by);
  for (Containers& containers : site.containers) {
    for (PlacedPoint& point : containers.at) point.at = shifted_by(point.at, by);
  }
  return site;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(needs_properties)

BOOST_AUTO_TEST_CASE(moving_the_garden_changes_nothing) {
  const Site site = read_site(garden_text(kWalk));
  const Amounts here = amounts_of(take_off_site(site, shipped_practice()).takeoff);
  for (const Point& by : {Point{feet(100), {}, {}}, Point{{}, -feet(77), {}}, Point{inches(7), inches(3), feet(40)}}) {
    const LaidTakeoff laid = take_off_site(moved(site, by), shipped_practice());
    check_sound(laid.takeoff);
    check_same(here, amounts_of(laid.takeoff), "moved");
  }
}

BOOST_AUTO_TEST_CASE(names_change_nothing) {
  const Amounts named = counted_amounts(garden_text(kWalk));
  check_same(named, counted_amounts(garden_text(kWalk, "aa", "zz")), "renamed");
  check_same(named, counted_amounts(garden_text(kWalk, "zz", "aa")), "renamed");
}

BOOST_AUTO_TEST_CASE(splitting_a_straight_step_changes_nothing) {
  const Amounts whole = counted_amounts(garden_text(kWalk));
  for (const char* walk :
       {"down 2 ft, east 4 ft, east 6 ft, north 24 ft", "down 1 ft, down 1 ft, east 10 ft, north 24 ft",
        "down 2 ft, east 10 ft, north 1 ft, north 20 ft, north 2 ft, north 1 ft"}) {
    check_same(whole, counted_amounts(garden_text(walk)), walk);
  }
}

BOOST_AUTO_TEST_CASE(a_line_measured_from_its_far_end_needs_the_same) {
  const auto text = [](const std::string& points) {
    return "teetally: design 1\nname: test\nunits: {length: ft, flow: gph}\n"
           "source: {at: [0, 0], thread: 3/4 in hose}\n"
           "lines: [{name: trunk, size: 1/2 in, points: [" +
           points +
           "]}]\n"
           "containers: [{name: pots, at: [[7, 9], [13, 20]], emitter: {flow: 1 gph}, feed: nearest point of trunk}]\n";
  };
  check_same(counted_amounts(text("[0, 0], [10, 0], [10, 24], [3, 24]")),
             counted_amounts(text("[3, 24], [10, 24], [10, 0], [0, 0]")), "reversed");
}

BOOST_AUTO_TEST_CASE(scaling_lines_scales_their_tubing_and_no_fitting) {
  const auto text = [](int scale) {
    const auto ft = [&](int n) { return std::to_string(n * scale) + " ft"; };
    return "teetally: design 1\nname: test\nunits: {length: ft, flow: gph}\n"
           "source: {at: [0, 0, " +
           ft(2) +
           "], thread: 3/4 in hose}\n"
           "lines:\n"
           "  - {name: trunk, from: tap, size: 1/2 in, walk: [down " +
           ft(2) + ", east " + ft(10) + ", north " + ft(24) +
           "]}\n"
           "  - {name: side, from: " +
           ft(20) + " along trunk, size: 1/2 in, walk: [west " + ft(6) +
           "]}\n"
           "containers:\n"
           "  - {name: pot, at: [[" +
           ft(8) + ", " + ft(20) + "]], emitter: {flow: 1 gph}, feed: nearest point of trunk}\n";
  };
  const Takeoff one = take_off_text(text(1), shipped_practice()).takeoff;
  const Takeoff three = take_off_text(text(3), shipped_practice()).takeoff;
  for (const char* kind :
       {"tee", "elbow", "end closure", "coupling", "tubing adapter", "emitter", "barbed connector"}) {
    BOOST_TEST(designed(one, kind) == designed(three, kind), kind);
  }
  BOOST_TEST(designed(one, "tee") == 1);
  BOOST_TEST(designed(one, "elbow") == 2);
  BOOST_TEST(designed(one, "feeder tubing") == feet(2).tenths_mm);
  BOOST_TEST(designed(three, "feeder tubing") == feet(3 * 2).tenths_mm);
  BOOST_TEST(designed(one, "supply tubing") == feet(42).tenths_mm);
  BOOST_TEST(designed(three, "supply tubing") == feet(3 * 42).tenths_mm);
}

// Any joints, devices, allowances and parts on site: the books balance and twice is the same.
BOOST_AUTO_TEST_CASE(reasons_add_up_whatever_the_garden) {
  std::mt19937 random(20261125);
  const auto pick = [&](int most) { return static_cast<int>(random() % static_cast<unsigned>(most)); };
  const char* sizes[] = {"1/4 in", "1/2 in", "3/4 in"};
  const Joint joints[] = {Joint::end_closure, Joint::flush_cap, Joint::elbow,   Joint::straight,
                          Joint::tee,         Joint::cross,     Joint::take_off};
  const std::size_t legs_at[] = {1, 1, 2, 2, 3, 4, 2};
  for (int round = 0; round < 300; ++round) {
    HandGarden garden;
    const int line = garden.element("line 'a'", "line");
    std::vector<int> legs;
    for (int i = 0; i < 6; ++i) {
      const LegRole role = i % 2 == 0 ? LegRole::supply : LegRole::row;
      const int run = garden.run("run " + std::to_string(i), role, sizes[pick(3)], line);
      legs.push_back(garden.leg(i, garden.node(i + 1, pick(9), pick(2)), run, Length{1 + pick(100'000)}, pick(2)));
    }
    for (int i = 0; i < 30; ++i) {
      const int joint = pick(7);
      std::vector<int> at;
      for (std::size_t n = 0; n < legs_at[joint]; ++n) at.push_back(legs[static_cast<std::size_t>(pick(6))]);
      garden.fitting(joints[joint], at, line);
    }
    for (int i = 0; i < 3; ++i)
      garden.device({i == 0 ? "shut-off valve" : "emitter", {}}, 1 + pick(5), line, 1 + pick(3));
    for (int i = 0; i < 4; ++i) {
      OwnedPart owned;
      owned.part = sized_part(i == 0   ? "supply tubing"
                              : i == 1 ? "tee"
                              : i == 2 ? "end closure"
                                       : "hold-down",
                              sizes[pick(3)]);
      owned.count = 1 + pick(20);
      if (i == 0) owned.length = Length{1 + pick(200'000)};
      garden.sized.garden.existing.push_back(owned);
    }
    Practice practice = bare_practice();
    practice.tubing_waste = {Percent{pick(200'000)}, "test"};
    practice.row_waste = {Percent{pick(200'000)}, "test"};
    practice.fitting_spares = {Percent{pick(200'000)}, "test"};
    practice.spare_couplings = {pick(3), "test"};
    practice.spare_hole_plugs = {pick(5), "test"};
    practice.hold_down_supply = {Length{pick(10'000)}, "test"};
    practice.hold_down_row = {Length{pick(10'000)}, "test"};
    Diagnostics diagnostics;
    const Takeoff takeoff = take_off(garden.sized, practice, shipped_vocabulary(), UnitSystem::us, diagnostics);
    BOOST_TEST(!diagnostics.has_errors());
    check_sound(takeoff);
    const Takeoff again = take_off(garden.sized, practice, shipped_vocabulary(), UnitSystem::us, diagnostics);
    BOOST_TEST(to_text(to_json(takeoff)) == to_text(to_json(again)));
  }
}

BOOST_AUTO_TEST_SUITE_END()
