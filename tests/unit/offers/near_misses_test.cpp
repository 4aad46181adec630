// What nearly serves a need, and why not, in words.
#include <boost/test/unit_test.hpp>

#include "unit/offers/offer_case.h"

using namespace offer_case;

namespace {

std::string emitter(const std::string& sku, const std::string& size, const std::string& flow,
                    const std::string& compensating) {
  return "  - {sku: " + sku + ", part: {kind: emitter, size: " + size + ", flow: " + flow +
         ", compensating: " + compensating + "}, grips: {inside: 0.170 in}, price: 1}\n";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(near_misses)

BOOST_AUTO_TEST_CASE(fewest_mismatches_first_then_nearest_in_figures) {
  const auto items = "items:\n" + emitter("FAR", "1/2 in", "4 gph", "no") + emitter("TWO", "1/4 in", "2 gph", "yes") +
                     emitter("SIX", "1/4 in", "0.6 gph", "yes") + emitter("PLAIN", "1/4 in", "0.5 gph", "no");
  const auto book = offers(takeoff({}, {need("{kind: emitter, size: 1/4 in, flow: 0.5 gph, compensating: yes}")}),
                           {catalog("a", items)}, true);
  const auto found = misses(book, 0);
  BOOST_REQUIRE(found.size() == 3u);
  BOOST_TEST(found[0] == "SIX: flow is 0.6 gph, wanted 0.5 gph");
  BOOST_TEST(found[1] == "TWO: flow is 2 gph, wanted 0.5 gph");
  BOOST_TEST(found[2] == "PLAIN: compensating is no, wanted yes");
}

BOOST_AUTO_TEST_CASE(every_mismatch_of_an_item_is_named) {
  const auto items = "items:\n" + emitter("FAR", "1/2 in", "4 gph", "no");
  const auto book = offers(takeoff({}, {need("{kind: emitter, size: 1/4 in, flow: 0.5 gph, compensating: yes}")}),
                           {catalog("a", items)}, true);
  const auto found = misses(book, 0);
  BOOST_REQUIRE(found.size() == 1u);
  BOOST_TEST(found[0] ==
             "FAR: compensating is no, wanted yes; flow is 4 gph, wanted 0.5 gph; size is 1/2 in, wanted 1/4 in");
}

BOOST_AUTO_TEST_CASE(a_fitting_that_grips_nothing_on_offer_says_so) {
  const auto items =
      "items:\n"
      "  - {sku: P6, part: {kind: supply tubing, size: 1/2 in}, inside: 0.600 in, outside: 0.700 in, "
      "packs: [{length: 100 ft, price: 14}]}\n"
      "  - {sku: P7, part: {kind: supply tubing, size: 1/2 in}, inside: 0.615 in, outside: 0.710 in, "
      "packs: [{length: 100 ft, price: 14}]}\n"
      "  - {sku: T5, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, grips: {inside: 0.520 in}, price: 1}\n"
      "  - {sku: TR, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, "
      "grips: {outside: 0.610 in to 0.630 in}, price: 1}\n"
      "  - {sku: TM, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, "
      "grips: [{inside: 0.600 in}, {inside: 0.600 in}, {inside: 0.615 in}], price: 1}\n";
  const auto book = offers(takeoff({"1/2 in"}, {tubing("{kind: supply tubing, size: 1/2 in}", 0, feet(9)),
                                                need("{kind: tee, size: 1/2 in, branch size: 1/2 in}", {0, 0, 0})}),
                           {catalog("a", items)}, true);
  const auto found = misses(book, 1);
  BOOST_REQUIRE(found.size() == 3u);
  BOOST_TEST(found[0] == "T5: grips 0.520 in inside; the 1/2 in tubing on offer has 0.600 in or 0.615 in");
  BOOST_TEST(found[1] == "TR: grips 0.610 in to 0.630 in outside; the 1/2 in tubing on offer has 0.700 in or 0.710 in");
  BOOST_TEST(found[2] == "TM: its ends grip different tubings, and no tubing on offer suits them all");
}

BOOST_AUTO_TEST_CASE(items_that_serve_are_no_near_misses_and_none_are_sought_unasked) {
  const auto items = "items:\n" + emitter("GOOD", "1/4 in", "0.5 gph", "yes");
  const auto wanted = takeoff({}, {need("{kind: emitter, size: 1/4 in, flow: 0.5 gph}")});
  BOOST_TEST(offers(wanted, {catalog("a", items)}, true).near_misses.empty());
  const auto unasked = offers(takeoff({}, {need("{kind: emitter, size: 1/4 in, flow: 1 gph}")}), {catalog("a", items)});
  BOOST_TEST(unasked.near_misses.empty());
  BOOST_TEST(unasked.items.empty());
}

BOOST_AUTO_TEST_CASE(a_missing_attribute_is_named) {
  const auto items = "items:\n  - {sku: E, part: {kind: elbow}, grips: {inside: 0.600 in}, price: 1}\n";
  const auto book = offers(takeoff({}, {need("{kind: elbow, size: 1/2 in}")}), {catalog("a", items)}, true);
  BOOST_REQUIRE(misses(book, 0).size() == 1u);
  BOOST_TEST(misses(book, 0)[0] == "E: size is not stated, wanted 1/2 in");
}

BOOST_AUTO_TEST_SUITE_END()
