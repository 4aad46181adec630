#include <boost/test/unit_test.hpp>
#include <string>

#include "needs/worksheet.h"
#include "unit/needs/hand_garden.h"

using namespace teetally;

namespace {

constexpr Flow gph(std::int64_t n) { return {n * 3'785'411'784}; }
constexpr Pressure psi(std::int64_t n) { return {n * 6895}; }

struct Result {
  Takeoff takeoff;
  std::string text;
};

Result take(const HandGarden& garden, const Practice& practice = bare_practice()) {
  Diagnostics diagnostics;
  Result result;
  result.takeoff = take_off(garden.sized, practice, shipped_vocabulary(), UnitSystem::us, diagnostics);
  for (const Diagnostic& diagnostic : diagnostics.in_order()) result.text += to_text(diagnostic);
  for (const Need& need : result.takeoff.needs) BOOST_TEST(adds_up(need), need.id);
  for (const Need& need : result.takeoff.covered) BOOST_TEST((adds_up(need) && need.amount == 0), need.id);
  return result;
}

// A trunk of 20 ft on the ground with a row of 12 ft leaving it half way.
struct TrunkAndRow : HandGarden {
  int trunk, bed, trunk_run, row_run;
  int first, second, row;
  TrunkAndRow() {
    trunk = element("line 'trunk'", "line");
    bed = element("bed 'beans'", "bed");
    trunk_run = run("trunk", LegRole::supply, "1/2 in", trunk);
    row_run = run("bed 'beans' row 1", LegRole::row, "1/4 in", bed);
    const int middle = node(10, 0, 0);
    const int end = node(20, 0, 0);
    const int row_end = node(10, 12, 0);
    first = leg(0, middle, trunk_run, feet(10));
    second = leg(middle, end, trunk_run, feet(10));
    row = leg(middle, row_end, row_run, feet(12));
    fitting(Joint::take_off, {row, first}, bed, "barbed connector where a row leaves its line");
    fitting(Joint::end_closure, {second}, trunk);
    fitting(Joint::flush_cap, {row}, bed);
  }
};

// Where an assumption comes from; "not stated" when it is not among those stated.
std::string origin_of(const Takeoff& takeoff, const std::string& text) {
  for (const Assumption& assumption : takeoff.assumptions) {
    if (assumption.text == text) return assumption.origin;
  }
  return "not stated";
}

bool has_caution(const Takeoff& takeoff, const std::string& words) {
  for (const std::string& caution : takeoff.cautions) {
    if (caution.find(words) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(takeoff)

BOOST_AUTO_TEST_CASE(tubing_is_what_the_pieces_add_up_to) {
  const Result result = take(TrunkAndRow());
  BOOST_TEST(result.text == "");
  BOOST_TEST(amount_of(result.takeoff, "supply tubing, size 1/2 in") == feet(20).tenths_mm);
  const Need* row = find_need(result.takeoff.needs, "emitter line, size 1/4 in");
  BOOST_REQUIRE(row != nullptr);
  BOOST_TEST(row->amount == feet(12).tenths_mm);
  BOOST_TEST(row->reasons.at(0).element == "bed 'beans'");
  BOOST_TEST(row->reasons.at(0).where == "bed 'beans' row 1");
  BOOST_TEST(row->pieces.size() == 1u);
  BOOST_TEST(amount_text(*row, row->amount, UnitSystem::us) == "12 ft");
  BOOST_TEST(row->systems.size() == 1u);
  BOOST_TEST(result.takeoff.systems.at(static_cast<std::size_t>(row->systems[0])).name == "1/4 in");
}

BOOST_AUTO_TEST_CASE(waste_multiplies_and_is_a_reason_of_its_own) {
  Practice practice = bare_practice();
  practice.tubing_waste = {Percent{60'000}, "practice.yaml:3:1"};
  const Result result = take(TrunkAndRow(), practice);
  const Need* tubing = find_need(result.takeoff.needs, "supply tubing, size 1/2 in");
  BOOST_REQUIRE(tubing != nullptr);
  BOOST_TEST(tubing->amount == feet(20).tenths_mm + 3658);  // 6 % of 60,960 is 3,657.6
  BOOST_TEST((tubing->reasons.back().reason_class == ReasonClass::waste));
  BOOST_TEST(tubing->reasons.back().amount == 3658);
  BOOST_TEST(amount_of(result.takeoff, "emitter line, size 1/4 in") == feet(12).tenths_mm);
  BOOST_TEST(origin_of(result.takeoff, "6 % more supply tubing than measured, for cutting") == "practice.yaml:3:1");
  BOOST_TEST(origin_of(result.takeoff, "0 % more emitter line than measured, for cutting") == "");
}

BOOST_AUTO_TEST_CASE(what_practice_decided_is_stated_where_it_is_made_use_of) {
  Practice practice = bare_practice();
  practice.punch_below = {0.5, "here"};
  practice.row_inset = {inches(6), "here"};
  practice.sprayer_height = {inches(10), "here"};
  const Takeoff takeoff = take(TrunkAndRow(), practice).takeoff;
  BOOST_TEST(origin_of(takeoff, "outermost rows from the sides of a bed: 6 in") == "here");
  BOOST_TEST(origin_of(takeoff, "sprayers over a bench: 10 in") == "not stated");
  BOOST_TEST(origin_of(takeoff,
                       "tubing leaves other tubing through its wall when its inside is less than 0.5 of the other's") ==
             "here");
}

BOOST_AUTO_TEST_CASE(joints_become_fittings_of_the_sizes_that_meet) {
  HandGarden garden;
  const int line = garden.element("line 'a'", "line");
  const int big = garden.run("a", LegRole::supply, "3/4 in", line);
  const int small = garden.run("b", LegRole::supply, "1/2 in", line);
  int n[5];
  for (int i = 0; i < 5; ++i) n[i] = garden.node(i + 1, i, 0);
  const int in = garden.leg(0, n[0], big, feet(3));
  const int on = garden.leg(n[0], n[1], small, feet(3));
  const int off = garden.leg(n[0], n[2], small, feet(3));
  garden.fitting(Joint::tee, {in, on, off}, line, "three legs meet");
  garden.fitting(Joint::straight, {in, on}, line, "the size changes");
  garden.fitting(Joint::cross, {on, off, on, off}, line);
  garden.fitting(Joint::elbow, {in, on}, line);
  garden.fitting(Joint::straight, {off, in}, line);
  garden.fitting(Joint::straight, {on, off}, line);
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "tee, size 3/4 in, branch size 1/2 in") == 1);
  BOOST_TEST(amount_of(takeoff, "cross, size 1/2 in") == 1);
  BOOST_TEST(amount_of(takeoff, "elbow, size 3/4 in") == 1);
  // The change of size beside the tee, and one given small end first.
  BOOST_TEST(amount_of(takeoff, "reducer, size 3/4 in, small size 1/2 in") == 2);
  BOOST_TEST(amount_of(takeoff, "coupling, size 1/2 in") == 1);
  const Need* tee = find_need(takeoff.needs, "tee, size 3/4 in, branch size 1/2 in");
  BOOST_TEST((tee->systems == std::vector<int>{0, 0, 1}));
  BOOST_TEST(tee->reasons.at(0).rule == "three legs meet");
}

BOOST_AUTO_TEST_CASE(tape_starts_at_a_connector_and_ends_in_a_flush_cap) {
  HandGarden garden;
  const int rows = garden.element("tape rows 'corn'", "tape row");
  const int header = garden.run("corn header", LegRole::header, "1/2 in", rows);
  const int tape = garden.run("corn row 1", LegRole::tape, "5/8 in", rows);
  const int corner = garden.node(3, 0, 0);
  const int end = garden.node(3, 30, 0);
  const int feed = garden.leg(0, corner, header, feet(3));
  const int row = garden.leg(corner, end, tape, feet(30));
  garden.fitting(Joint::tape_start, {row, feed}, rows);
  garden.fitting(Joint::flush_cap, {row}, rows);
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "drip tape, size 5/8 in") == feet(30).tenths_mm);
  BOOST_TEST(amount_of(takeoff, "tape connector, size 5/8 in, from size 1/2 in") == 1);
  BOOST_TEST(amount_of(takeoff, "flush cap, size 5/8 in") == 1);
  BOOST_TEST(amount_of(takeoff, "punch") == 1);
}

BOOST_AUTO_TEST_CASE(devices_take_their_size_from_the_tubing) {
  HandGarden garden;
  const int pots = garden.element("containers 'pots'", "container");
  const int line = garden.run("feed", LegRole::supply, "3/4 in", pots);
  const int thin = garden.run("header", LegRole::header, "1/2 in", pots);
  const int feeder = garden.run("pot 1", LegRole::feeder, "1/4 in", pots);
  const int valve_at = garden.node(1, 0, 0, "feed 1 ft");
  const int split = garden.node(2, 0, 0);
  const int pot = garden.node(2, 2, 0, "pot 1");
  const int in = garden.leg(0, valve_at, line, feet(1));
  const int out = garden.leg(valve_at, split, thin, feet(1));
  const int lead = garden.leg(split, pot, feeder, feet(2));
  garden.device({"shut-off valve", {}}, valve_at, pots);
  garden.device({"emitter", {{"flow", number_value(Dimension::flow, gph(1).nl_per_h)}}}, pot, pots, 2);
  garden.fitting(Joint::take_off, {lead, out}, pots);
  garden.fitting(Joint::end_closure, {out}, pots);
  static_cast<void>(in);
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "shut-off valve, size 3/4 in") == 1);
  BOOST_TEST(amount_of(takeoff, "emitter, size 1/4 in, flow 1 gph") == 2);
  BOOST_TEST(amount_of(takeoff, "barbed connector, size 1/4 in") == 1);
  const Need* emitter = find_need(takeoff.needs, "emitter, size 1/4 in, flow 1 gph");
  BOOST_TEST(emitter->reasons.at(0).where == "pot 1");
}

BOOST_AUTO_TEST_CASE(hold_downs_are_one_for_each_started_spacing_of_lying_tubing) {
  Practice practice = bare_practice();
  practice.hold_down_supply = {feet(3), "test"};
  practice.hold_down_row = {feet(4), "test"};
  TrunkAndRow garden;
  const int top = garden.node(20, 0, 2);
  garden.leg(2, top, garden.trunk_run, feet(2));  // upright: nothing to hold it down to
  const Takeoff takeoff = take(garden, practice).takeoff;
  BOOST_TEST(amount_of(takeoff, "hold-down, size 1/2 in") == 7);  // 20 ft / 3 ft, started
  BOOST_TEST(amount_of(takeoff, "hold-down, size 1/4 in") == 3);  // 12 ft / 4 ft, exactly
}

BOOST_AUTO_TEST_CASE(tubing_over_a_bench_is_not_held_down) {
  Practice practice = bare_practice();
  practice.hold_down_supply = {feet(3), "test"};
  HandGarden garden;
  const int bench = garden.element("spray 'bench'", "spray");
  const int line = garden.run("bench line", LegRole::supply, "1/2 in", bench);
  const int foot = garden.node(6, 0, 0);
  garden.leg(0, foot, line, feet(6));
  garden.leg(garden.node(6, 0, 3), garden.node(16, 0, 3), line, feet(10));
  BOOST_TEST(amount_of(take(garden, practice).takeoff, "hold-down, size 1/2 in") == 2);  // of the 6 ft on the ground
}

BOOST_AUTO_TEST_CASE(hole_plugs_are_kept_for_each_hundred_holes_begun) {
  Practice practice = bare_practice();
  practice.spare_hole_plugs = {4, "test"};
  TrunkAndRow garden;  // one hole
  for (int more = 1; more < 100; ++more) garden.fitting(Joint::take_off, {garden.row, garden.first}, garden.bed);
  BOOST_TEST(amount_of(take(garden, practice).takeoff, "hole plug") == 4);
  garden.fitting(Joint::take_off, {garden.row, garden.first}, garden.bed);
  BOOST_TEST(amount_of(take(garden, practice).takeoff, "hole plug") == 8);
}

BOOST_AUTO_TEST_CASE(spares_are_reasons_of_their_own) {
  Practice practice = bare_practice();
  practice.fitting_spares = {Percent{30'000}, "test"};
  practice.spare_couplings = {2, "test"};
  practice.spare_hole_plugs = {4, "test"};
  const Takeoff takeoff = take(TrunkAndRow(), practice).takeoff;
  const Need* connector = find_need(takeoff.needs, "barbed connector, size 1/4 in");
  BOOST_REQUIRE(connector != nullptr);
  BOOST_TEST(connector->amount == 2);
  BOOST_TEST((connector->reasons.back().reason_class == ReasonClass::spare));
  BOOST_TEST(connector->reasons.back().amount == 1);
  BOOST_TEST(amount_of(takeoff, "coupling, size 1/2 in") == 2);
  BOOST_TEST(amount_of(takeoff, "coupling, size 1/4 in") == 0);
  BOOST_TEST(amount_of(takeoff, "hole plug") == 4);
  BOOST_TEST(amount_of(takeoff, "punch") == 1);
}

BOOST_AUTO_TEST_CASE(the_head_is_assembled_from_the_tap_outward) {
  TrunkAndRow garden;
  garden.sized.zones[0].demand_m3_per_s = in_m3_per_s(gph(60));
  garden.sized.zones[0].regulator = psi(25);
  garden.sized.garden.source.timer = true;
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "timer, outlets 1, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "backflow preventer, thread 3/4 in hose, type hose connection vacuum breaker") == 1);
  BOOST_TEST(amount_of(takeoff, "filter, flow 60 gph, mesh 150, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "pressure regulator, flow 60 gph, pressure 25 psi, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "tubing adapter, size 1/2 in, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "thread adapter, from 1/2 in pipe, to 3/4 in hose") == 0);
  const Need* filter = find_need(takeoff.needs, "filter, flow 60 gph, mesh 150, thread 3/4 in hose");
  BOOST_TEST(filter->part.attributes.at("flow").low == gph(60).nl_per_h);  // to the last nanolitre
  BOOST_TEST(has_caution(takeoff, "Backflow"));
  BOOST_TEST(has_caution(takeoff, "ASSE 1011"));
  BOOST_TEST(!has_caution(takeoff, "never to fit one"));
  BOOST_TEST(has_caution(takeoff, "estimates"));
}

BOOST_AUTO_TEST_CASE(tape_wants_its_own_filter_and_low_static_pressure_no_regulator) {
  TrunkAndRow garden;
  garden.sized.zones[0].regulator = psi(25);
  garden.sized.zones[0].tape = true;
  garden.sized.garden.source.static_pressure = psi(20);
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "filter, mesh 200, thread 3/4 in hose") == 1);
  for (const Need& need : takeoff.needs) BOOST_TEST(need.part.kind != "pressure regulator");
}

BOOST_AUTO_TEST_CASE(a_tap_at_just_the_pressure_wanted_has_no_regulator) {
  TrunkAndRow garden;
  garden.sized.zones[0].regulator = psi(25);
  garden.sized.garden.source.static_pressure = psi(25);
  for (const Need& need : take(garden).takeoff.needs) BOOST_TEST(need.part.kind != "pressure regulator");
  garden.sized.garden.source.static_pressure = Pressure{psi(25).pa + 1};
  BOOST_TEST(amount_of(take(garden).takeoff, "pressure regulator, pressure 25 psi, thread 3/4 in hose") == 1);
}

BOOST_AUTO_TEST_CASE(injection_wants_a_reduced_pressure_device) {
  TrunkAndRow garden;
  garden.sized.garden.source.injector = true;
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "backflow preventer, thread 3/4 in hose, type reduced pressure") == 1);
  BOOST_TEST(has_caution(takeoff, "603.5.6"));
}

BOOST_AUTO_TEST_CASE(a_tap_with_pipe_thread_needs_a_thread_adapter) {
  TrunkAndRow garden;
  garden.sized.garden.source.thread = "1/2 in pipe";
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "thread adapter, from 1/2 in pipe, to 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "tubing adapter, size 1/2 in, thread 3/4 in hose") == 1);
  garden.sized.garden.source.thread = "3/4 in BSP";
  BOOST_TEST(amount_of(take(garden).takeoff, "tubing adapter, size 1/2 in, thread 3/4 in BSP") == 1);
}

BOOST_AUTO_TEST_CASE(zones_that_start_apart_get_a_head_each_and_one_splitter) {
  TrunkAndRow garden;
  garden.sized.garden.zones[0].name = "beds";
  const int pots_zone = garden.zone("pots", gph(10), psi(25));
  garden.sized.garden.zones[1].head_node = 0;
  const int pots = garden.element("containers 'pots'", "container", pots_zone);
  const int line = garden.run("pots feed", LegRole::supply, "1/2 in", pots);
  garden.leg(0, garden.node(0, 5, 0), line, feet(5), 1);
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "tap splitter, outlets 2, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "backflow preventer, thread 3/4 in hose, type hose connection vacuum breaker") == 2);
  BOOST_TEST(takeoff.systems.at(0).name == "1/2 in, zone 'beds'");
  BOOST_TEST(takeoff.systems.at(2).name == "1/2 in, zone 'pots'");
  int adapters = 0;
  for (const Need& need : takeoff.needs) adapters += need.part.kind == "tubing adapter" ? 1 : 0;
  BOOST_TEST(adapters == 2);  // of two systems, so of two needs
}

BOOST_AUTO_TEST_CASE(zones_that_share_a_start_share_a_head_at_the_lower_pressure) {
  TrunkAndRow garden;
  garden.sized.zones[0].regulator = psi(25);
  const int tape = garden.zone("corn", gph(100), psi(10));
  garden.sized.garden.zones[1].head_node = 0;
  const int corn = garden.element("line 'corn'", "line", tape);
  garden.leg(2, garden.node(30, 0, 0), garden.run("corn", LegRole::supply, "1/2 in", corn), feet(10));
  garden.device({"zone valve", {}}, 2, corn);
  garden.sized.garden.source.timer = true;
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "timer, outlets 1, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "pressure regulator, flow 100 gph, pressure 10 psi, thread 3/4 in hose") == 1);
  BOOST_TEST(has_caution(takeoff, "wants 25 psi"));
  BOOST_TEST(has_caution(takeoff, "Zone valves are worked by hand"));
}

BOOST_AUTO_TEST_CASE(of_a_zone_with_two_starts_each_head_takes_its_part) {
  TrunkAndRow garden;
  garden.sized.zones[0].demand_m3_per_s = in_m3_per_s(gph(60));
  const int other = garden.element("line 'other'", "line");
  const int leg =
      garden.leg(0, garden.node(0, 9, 0), garden.run("other", LegRole::supply, "1/2 in", other), feet(9), 1);
  garden.sized.leg_flow_m3_per_s.assign(garden.sized.garden.legs.size(), 0.0);
  garden.sized.leg_flow_m3_per_s[static_cast<std::size_t>(garden.first)] = in_m3_per_s(gph(40));
  garden.sized.leg_flow_m3_per_s[static_cast<std::size_t>(leg)] = in_m3_per_s(gph(20));
  const Takeoff takeoff = take(garden).takeoff;
  BOOST_TEST(amount_of(takeoff, "filter, flow 40 gph, mesh 150, thread 3/4 in hose") == 1);
  BOOST_TEST(amount_of(takeoff, "filter, flow 20 gph, mesh 150, thread 3/4 in hose") == 1);
}

BOOST_AUTO_TEST_CASE(a_piece_that_goes_on_into_another_run_is_credited_to_both) {
  TrunkAndRow garden;
  const int more = garden.element("line 'more'", "line");
  const int run = garden.run("more", LegRole::supply, "1/2 in", more);
  const int leg = garden.leg(2, garden.node(25, 0, 0), run, feet(5));
  std::vector<Piece>& pieces = garden.sized.garden.pieces;
  pieces.pop_back();
  pieces[1].length += feet(5);
  pieces[1].legs.push_back(leg);
  const Result result = take(garden);
  BOOST_TEST(result.text == "");
  const Need* need = find_need(result.takeoff.needs, "supply tubing, size 1/2 in");
  BOOST_REQUIRE(need->reasons.size() == 2u);
  BOOST_TEST(need->reasons[1].element == "line 'more'");
  BOOST_TEST(need->reasons[1].amount == feet(5).tenths_mm);
  BOOST_TEST(need->pieces.size() == 2u);
}

BOOST_AUTO_TEST_CASE(a_valve_after_the_vacuum_breaker_is_flagged_with_its_source) {
  TrunkAndRow garden;
  garden.device({"shut-off valve", {}}, 1, garden.bed);
  BOOST_TEST(has_caution(take(garden).takeoff, "never to fit one"));
}

BOOST_AUTO_TEST_CASE(what_the_site_has_is_deducted_and_never_below_zero) {
  TrunkAndRow garden;
  OwnedPart closures;
  closures.part = sized_part("end closure", "1/2 in");
  closures.count = 5;
  OwnedPart tubing;
  tubing.part = sized_part("supply tubing", "1/2 in");
  tubing.length = feet(6);
  OwnedPart splitter;
  splitter.part = {"tap splitter",
                   {{"thread", word_value("3/4 in hose")}, {"outlets", number_value(Dimension::count, 2)}}};
  garden.sized.garden.existing = {closures, tubing, splitter};
  const Result result = take(garden);
  BOOST_TEST(result.text == "");
  const Takeoff& takeoff = result.takeoff;
  BOOST_TEST(find_need(takeoff.needs, "end closure, size 1/2 in") == nullptr);
  const Need* covered = find_need(takeoff.covered, "end closure, size 1/2 in");
  BOOST_REQUIRE(covered != nullptr);
  BOOST_TEST(covered->reasons.back().amount == -1);
  BOOST_TEST((covered->reasons.back().reason_class == ReasonClass::on_site));
  BOOST_TEST(amount_of(takeoff, "supply tubing, size 1/2 in") == feet(14).tenths_mm);
  BOOST_TEST(find_need(takeoff.covered, "tap splitter, outlets 1, thread 3/4 in hose") != nullptr);
}

BOOST_AUTO_TEST_CASE(an_existing_part_that_does_not_say_all_is_deducted_with_a_caution) {
  TrunkAndRow garden;
  OwnedPart filter;
  filter.part = {"filter", {{"thread", word_value("3/4 in hose")}}};
  garden.sized.garden.existing = {filter};
  const Result result = take(garden);
  BOOST_TEST(result.text == "");
  BOOST_TEST(find_need(result.takeoff.covered, "filter, mesh 150, thread 3/4 in hose") != nullptr);
  BOOST_TEST(has_caution(result.takeoff, "does not state its mesh"));
}

BOOST_AUTO_TEST_CASE(more_of_a_part_than_is_needed_is_no_mistake) {
  TrunkAndRow garden;
  OwnedPart closure;
  closure.part = sized_part("end closure", "1/2 in");
  garden.sized.garden.existing = {closure, closure};  // one is needed
  const Result result = take(garden);
  BOOST_TEST(result.text == "");
  BOOST_TEST(find_need(result.takeoff.covered, "end closure, size 1/2 in") != nullptr);
}

BOOST_AUTO_TEST_CASE(an_existing_part_that_serves_nothing_is_warned_about) {
  TrunkAndRow garden;
  OwnedPart cross;
  cross.part = sized_part("cross", "1/2 in");
  OwnedPart closure;
  closure.part = sized_part("end closure", "3/4 in");
  garden.sized.garden.existing = {cross, closure};
  const Result result = take(garden);
  BOOST_TEST(result.text.find("[needs/existing-matches-nothing]") != std::string::npos);
  BOOST_TEST(result.text.find("the design needs no cross") != std::string::npos);
  BOOST_TEST(result.text.find("size is 3/4 in, wanted 1/2 in") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(existing_tubing_yields_nothing_but_what_joins_the_new_to_it) {
  TrunkAndRow garden;
  garden.sized.garden.runs[static_cast<std::size_t>(garden.trunk_run)].existing = true;
  garden.sized.garden.elements[static_cast<std::size_t>(garden.trunk)].existing = true;
  const Result result = take(garden);
  BOOST_TEST(result.text == "");
  BOOST_TEST(amount_of(result.takeoff, "supply tubing, size 1/2 in") == 0);
  BOOST_TEST(amount_of(result.takeoff, "end closure, size 1/2 in") == 0);
  BOOST_TEST(amount_of(result.takeoff, "tubing adapter, size 1/2 in, thread 3/4 in hose") == 0);
  BOOST_TEST(amount_of(result.takeoff, "barbed connector, size 1/4 in") == 1);
}

BOOST_AUTO_TEST_CASE(an_element_without_any_part_is_an_error) {
  TrunkAndRow garden;
  garden.element("bed 'forgotten'", "bed");
  const Result result = take(garden);
  BOOST_TEST(result.text.find("bed 'forgotten' yields no part") != std::string::npos);
  BOOST_TEST(result.text.find("[needs/element-without-part]") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(the_dump_holds_every_reason) {
  const std::string json = to_text(to_json(take(TrunkAndRow()).takeoff));
  BOOST_TEST(json.find("\"barbed connector where a row leaves its line\"") != std::string::npos);
  BOOST_TEST(json.find("\"covered\"") != std::string::npos);
}

BOOST_AUTO_TEST_SUITE_END()
