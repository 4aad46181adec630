// What backflow preventers may not be used for.
#include "hydraulics/head_order.h"

#include <boost/test/unit_test.hpp>

#include "unit/hydraulics/made_garden.h"

using namespace teetally;
using namespace teetally::hydraulics;

namespace {

made::Maker with_breaker(const std::string& type, Length up = {}) {
  made::Maker maker;
  const int bed = maker.element("bed 'a'");
  maker.outlet(maker.line(0, feet(10), "1/2 in", bed, "line", up), made::emitter(1), bed);
  OwnedPart owned;
  owned.part = {"backflow preventer", {{"type", word_value(type)}}};
  maker.garden.existing.push_back(owned);
  return maker;
}

void add_valve(made::Maker& maker) {
  Device valve;
  valve.part.kind = "shut-off valve", valve.node = 1, valve.element = 0;
  maker.garden.devices.push_back(valve);
}

std::vector<std::string> slugs(const Garden& garden) {
  Diagnostics diagnostics;
  check_head_order(garden, UnitSystem::us, diagnostics);
  std::vector<std::string> out;
  for (const Diagnostic& diagnostic : diagnostics.in_order()) out.push_back(diagnostic.slug);
  return out;
}

const std::vector<std::string> kNone;

}  // namespace

BOOST_AUTO_TEST_SUITE(head_order)

BOOST_AUTO_TEST_CASE(every_kind_of_the_vocabulary_has_limits) {
  const Vocabulary vocabulary = shipped_vocabulary();
  const KindType* kind = vocabulary.find("backflow preventer");
  BOOST_REQUIRE(kind != nullptr);
  for (const AttributeType& attribute : kind->attributes) {
    if (attribute.name != "type") continue;
    for (const DeviceLimits& limits : device_limits())
      BOOST_TEST(attribute.about.find(limits.type) != std::string::npos, limits.type);
  }
}

BOOST_AUTO_TEST_CASE(no_valve_after_a_hose_breaker) {
  made::Maker maker = with_breaker("hose connection vacuum breaker");
  BOOST_TEST(slugs(maker.garden) == kNone, boost::test_tools::per_element());
  add_valve(maker);
  BOOST_TEST(slugs(maker.garden) == std::vector<std::string>{"hydraulics/valve-after-breaker"},
             boost::test_tools::per_element());
  made::Maker other = with_breaker("reduced pressure");
  add_valve(other);
  BOOST_TEST(slugs(other.garden) == kNone, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(heights) {
  BOOST_TEST(slugs(with_breaker("atmospheric vacuum breaker", inches(-5)).garden) ==
                 std::vector<std::string>{"hydraulics/breaker-height"},
             boost::test_tools::per_element());
  BOOST_TEST(slugs(with_breaker("atmospheric vacuum breaker", inches(-6)).garden) == kNone,
             boost::test_tools::per_element());
  BOOST_TEST(slugs(with_breaker("pressure vacuum breaker", inches(-6)).garden) ==
                 std::vector<std::string>{"hydraulics/breaker-height"},
             boost::test_tools::per_element());
  BOOST_TEST(slugs(with_breaker("hose connection vacuum breaker", feet(10)).garden) == kNone,
             boost::test_tools::per_element());
  BOOST_TEST(slugs(with_breaker("hose connection vacuum breaker", feet(11)).garden) ==
                 std::vector<std::string>{"hydraulics/breaker-height"},
             boost::test_tools::per_element());
  made::Maker none;
  const int bed = none.element("bed 'a'");
  none.outlet(none.line(0, feet(10), "1/2 in", bed, "line", feet(11)), made::emitter(1), bed);
  BOOST_TEST(slugs(none.garden) == std::vector<std::string>{"hydraulics/breaker-height"},
             boost::test_tools::per_element());
}

BOOST_AUTO_TEST_CASE(injection_asks_for_more) {
  made::Maker maker = with_breaker("double check");
  maker.garden.source.injector = true;
  BOOST_TEST(slugs(maker.garden) == std::vector<std::string>{"hydraulics/injector-needs-more"},
             boost::test_tools::per_element());
  maker = with_breaker("reduced pressure");
  maker.garden.source.injector = true;
  BOOST_TEST(slugs(maker.garden) == kNone, boost::test_tools::per_element());
}

BOOST_AUTO_TEST_SUITE_END()
