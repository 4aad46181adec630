// Verdicts in words, and the checks that go with them.
#include "hydraulics/verdict.h"

#include <boost/test/unit_test.hpp>

#include "hydraulics/garden_checks.h"
#include "hydraulics/tubing.h"
#include "unit/hydraulics/made_garden.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

ZoneFlow flow_of(const Garden& garden) {
  const Practice practice = made::practice();
  return hydraulics::flow_of(garden, 0, insides_of_legs(garden, practice), fitting_losses(garden, 1.8),
                             settings_of(practice));
}

std::vector<std::string> slugs(const Garden& garden) {
  const Settings settings = settings_of(made::practice());
  Diagnostics diagnostics;
  check_source(garden, settings, UnitSystem::us, diagnostics);
  check_zone(garden, 0, flow_of(garden), settings, UnitSystem::us, diagnostics);
  std::vector<std::string> out;
  for (const Diagnostic& diagnostic : diagnostics.in_order()) out.push_back(diagnostic.slug);
  return out;
}

made::Maker with_outlets(std::int64_t count, Length up = {}) {
  made::Maker maker;
  const int bed = maker.element("bed 'tomatoes'");
  maker.outlet(maker.line(0, feet(20), "1 in", bed, "line", up), made::emitter(1, true), bed, count);
  return maker;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(verdicts)

BOOST_AUTO_TEST_CASE(the_tap_falls_with_the_square_of_the_flow) {
  const made::Maker maker = with_outlets(10);
  const Supply supply = supply_of(maker.garden, settings_of(made::practice()));
  BOOST_TEST(std::abs(*supply.static_head - supply.droop() * *supply.tested * *supply.tested) < 1e-9);
}

BOOST_AUTO_TEST_CASE(a_regulated_start_holds_its_setting) {
  const ZoneFlow flow = flow_of(with_outlets(50).garden);
  BOOST_TEST(!flow.supply_limits);
  BOOST_TEST(std::abs(flow.start_head * 9789 / 6894.757 - 25) < 0.01);
}

// 200 gph of 300: at rest 55 psi, of which the head assembly takes 5 and the regulator needs 5; the droop takes 55
// (2/3)^2.
BOOST_AUTO_TEST_CASE(a_weak_tap_sets_the_start_pressure) {
  const ZoneFlow flow = flow_of(with_outlets(200).garden);
  BOOST_TEST(flow.supply_limits);
  BOOST_TEST(std::abs(flow.start_head * 9789 / 6894.757 - (45 - 55.0 * 4 / 9)) < 0.05);
}

BOOST_AUTO_TEST_CASE(more_static_pressure_never_gives_less) {
  double before = 0;
  for (int pressure = 20; pressure < 90; pressure += 5) {
    made::Maker maker = with_outlets(250);
    maker.garden.source.static_pressure = made::psi(pressure);
    const ZoneFlow flow = flow_of(maker.garden);
    double total = 0;
    for (const double q : flow.solution.outlet_flows) total += q;
    BOOST_TEST(total >= before);
    before = total;
  }
}

BOOST_AUTO_TEST_CASE(a_good_garden_has_nothing_to_report) { BOOST_TEST(slugs(with_outlets(20).garden).empty()); }

BOOST_AUTO_TEST_CASE(nonsense_is_named) {
  made::Maker maker = with_outlets(10);
  maker.garden.source.flow = Flow{0};
  maker.garden.source.static_pressure = Pressure{0};
  BOOST_TEST(slugs(maker.garden) == (std::vector<std::string>{"hydraulics/no-flow", "hydraulics/no-pressure"}),
             boost::test_tools::per_element());

  maker = with_outlets(10);
  maker.garden.source.static_pressure = made::psi(15);
  BOOST_TEST(slugs(maker.garden) == std::vector<std::string>{"hydraulics/regulator-above-supply"},
             boost::test_tools::per_element());

  BOOST_TEST(slugs(with_outlets(10, feet(60)).garden) == std::vector<std::string>{"hydraulics/too-high"},
             boost::test_tools::per_element());

  maker = with_outlets(10);
  maker.outlet(maker.node(), made::emitter(1), 0);
  BOOST_TEST(slugs(maker.garden) == std::vector<std::string>{"hydraulics/not-joined"},
             boost::test_tools::per_element());

  made::Maker empty;
  empty.line(0, feet(5), "1/2 in", empty.element("line"));
  BOOST_TEST(slugs(empty.garden) == std::vector<std::string>{"hydraulics/no-outlets"},
             boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(the_worse_of_two) {
  BOOST_TEST((worse(Verdict::works, Verdict::tight) == Verdict::tight));
  BOOST_TEST((worse(Verdict::unknown, Verdict::tight) == Verdict::unknown));
  BOOST_TEST((worse(Verdict::unknown, Verdict::will_not_work) == Verdict::will_not_work));
}

BOOST_AUTO_TEST_SUITE_END()
