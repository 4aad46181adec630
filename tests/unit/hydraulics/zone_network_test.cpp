// A garden's zone becomes a network: every emitter in its place, other zones shut, losses where water turns.
#include "hydraulics/zone_network.h"

#include <boost/test/unit_test.hpp>
#include <cmath>

#include "hydraulics/tubing.h"
#include "unit/hydraulics/made_garden.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

ZoneNetwork network_of(const Garden& garden, int zone = 0) {
  const Practice practice = made::practice();
  return hydraulics::network_of(garden, zone, insides_of_legs(garden, practice), fitting_losses(garden, 1.8),
                                settings_of(practice));
}

double total_length(const ZoneNetwork& zone) {
  double sum = 0;
  for (const NetworkLink& link : zone.network.links) sum += link.length;
  return sum;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(zone_networks)

BOOST_AUTO_TEST_CASE(every_emitter_has_its_own_place) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int end = maker.line(0, feet(10), "1/2 in", bed);
  maker.row(end, feet(10), inches(12), made::emitter(0.5), bed);
  const ZoneNetwork zone = network_of(maker.garden);
  BOOST_TEST(zone.network.outlets.size() == 10u);
  BOOST_TEST(zone.network.links.size() == 11u);
  BOOST_TEST(std::abs(total_length(zone) - 20 * 0.3048) < 1e-9);
  BOOST_TEST(std::abs(zone.spots[3].along - 4 * 0.3048) < 1e-9);
  // The tenth sits at the end of the row.
  BOOST_TEST(zone.network.outlets[9].node == zone.node_of[2]);
  BOOST_TEST(zone.links_of_leg[1].second == 10);
}

BOOST_AUTO_TEST_CASE(emitter_places_follow_the_count) {
  Run run;
  run.emitter_spacing = metres(1);
  run.emitter_count = 3;
  BOOST_TEST(emitter_places(run, 3.5) == (std::vector<double>{1, 2, 3}), boost::test_tools::per_element());
  BOOST_TEST(emitter_places(run, 2.5) == (std::vector<double>{0, 1, 2}), boost::test_tools::per_element());
  BOOST_TEST(emitter_places(run, 1.5) == (std::vector<double>{0.5, 1, 1.5}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(a_row_that_turns_goes_on_counting) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int row = maker.row(0, feet(4), inches(18), made::emitter(0.5), bed);
  maker.leg(1, maker.node(), feet(5), row);
  maker.garden.runs[row].emitter_count = 6;
  const ZoneNetwork zone = network_of(maker.garden);
  BOOST_TEST(zone.network.outlets.size() == 6u);
  BOOST_TEST(std::abs(total_length(zone) - 9 * 0.3048) < 1e-9);
  BOOST_TEST(zone.network.outlets[5].node == zone.node_of[2]);
}

BOOST_AUTO_TEST_CASE(outlets_of_other_zones_are_shut) {
  made::Maker maker;
  maker.garden.zones.push_back({"pots", {}, 0, {}});
  const int bed = maker.element("bed", 0), pots = maker.element("pots", 1);
  const int end = maker.line(0, feet(10), "1/2 in", bed);
  maker.row(end, feet(10), inches(12), made::emitter(0.5), bed);
  maker.outlet(end, made::emitter(1), pots, 3);
  BOOST_TEST(network_of(maker.garden, 0).network.outlets.size() == 10u);
  const ZoneNetwork second = network_of(maker.garden, 1);
  BOOST_TEST(second.network.outlets.size() == 1u);
  BOOST_TEST(second.spots[0].count == 3.0);
}

BOOST_AUTO_TEST_CASE(what_is_not_joined_is_named) {
  made::Maker maker;
  const int near = maker.element("near"), far = maker.element("far");
  maker.row(0, feet(5), inches(12), made::emitter(0.5), near);
  maker.row(maker.node(), feet(5), inches(12), made::emitter(0.5), far);
  maker.outlet(maker.node(), made::emitter(1), far);
  const ZoneNetwork zone = network_of(maker.garden);
  BOOST_TEST(zone.network.outlets.size() == 5u);
  BOOST_TEST(zone.unreached == std::vector<int>{far}, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(fittings_lose_where_water_turns) {
  made::Maker maker;
  const int bed = maker.element("bed");
  const int middle = maker.line(0, feet(10), "1/2 in", bed);
  maker.line(middle, feet(10), "1/2 in", bed);
  maker.line(middle, feet(10), "1/2 in", bed);
  Fitting tee;
  tee.joint = Joint::tee, tee.node = middle, tee.legs = {0, 1, 2};
  maker.garden.fittings = {tee};
  std::vector<double> losses = fitting_losses(maker.garden, 1.8);
  BOOST_TEST(losses == (std::vector<double>{0, 0.6, 1.8}), boost::test_tools::per_element());
  // Fed by its branch, both ways turn.
  maker.garden.fittings[0].legs = {1, 2, 0};
  losses = fitting_losses(maker.garden, 1.8);
  BOOST_TEST(losses == (std::vector<double>{0, 1.8, 1.8}), boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(holding_and_feeding_replace_each_other) {
  made::Maker maker;
  const int bed = maker.element("bed");
  maker.row(0, feet(5), inches(12), made::emitter(0.5), bed);
  ZoneNetwork zone = network_of(maker.garden);
  const std::size_t nodes = zone.network.nodes.size();
  hold(zone, 10);
  feed(zone, 30, 1e6);
  BOOST_TEST(zone.network.nodes.size() == nodes + 1);
  BOOST_TEST(!zone.network.nodes[zone.head].held_head.has_value());
  hold(zone, 12);
  BOOST_TEST(zone.network.nodes.size() == nodes);
  BOOST_TEST(*zone.network.nodes[zone.head].held_head == 12.0);
}

BOOST_AUTO_TEST_SUITE_END()
