// Which items serve a need by what they are, and which of them can be had.
#include <boost/test/unit_test.hpp>

#include "unit/offers/offer_case.h"

using namespace offer_case;

namespace {

const std::string kRow = "{kind: emitter line, size: 1/4 in, spacing: 12 in, flow: 0.5 gph}";

std::string row(const std::string& sku, const std::string& packs) {
  return "  - {sku: " + sku +
         ", part: {kind: emitter line, size: 1/4 in, spacing: 12 in, flow: 0.5 gph, "
         "compensating: no}, inside: 0.170 in, outside: 0.250 in, packs: [" +
         packs + "]}\n";
}

}  // namespace

BOOST_AUTO_TEST_SUITE(matching)

BOOST_AUTO_TEST_CASE(attributes_match_as_the_vocabulary_says) {
  const auto items =
      "items:\n"
      "  - {sku: F120, part: {kind: filter, thread: 3/4 in hose, mesh: 120, flow: 400 gph}, price: 8}\n"
      "  - {sku: F155, part: {kind: filter, thread: 3/4 in hose, mesh: 155, flow: 400 gph}, price: 9}\n"
      "  - {sku: F200, part: {kind: filter, thread: 3/4 in hose, mesh: 200, flow: 100 gph}, price: 9}\n"
      "  - {sku: R, part: {kind: pressure regulator, thread: 3/4 in hose, pressure: 25 psi, "
      "flow: 6 gph to 480 gph}, price: 9}\n"
      "  - {sku: S, part: {kind: sprayer, size: 1/4 in, flow: 3 gph to 18 gph, pattern: [full, half]}, "
      "grips: {inside: 0.170 in}, price: 1}\n";
  const auto book =
      offers(takeoff({}, {need("{kind: filter, thread: 3/4 in hose, mesh: 150, flow: 150 gph}"),
                          need("{kind: pressure regulator, thread: 3/4 in hose, pressure: 25 psi, flow: 150 gph}"),
                          need("{kind: pressure regulator, thread: 3/4 in hose, pressure: 25 psi, flow: 500 gph}"),
                          need("{kind: sprayer, size: 1/4 in, flow: 10 gph, pattern: half}")}),
             {catalog("a", items)});
  BOOST_TEST(servings(book, 0) == "F155()");
  BOOST_TEST(servings(book, 1) == "R()");
  BOOST_TEST(servings(book, 2) == "");
  BOOST_TEST(servings(book, 3) == "S()");
}

BOOST_AUTO_TEST_CASE(servings_follow_the_needs_then_the_catalogs) {
  const auto a =
      catalog("a", "items:\n" + row("A2", "{length: 100 ft, price: 9}") + row("A1", "{length: 50 ft, price: 9}"));
  const auto b =
      catalog("b", "items:\n  - {sku: U, part: {kind: punch}, price: 1}\n" + row("B", "{length: 50 ft, price: 9}"));
  const auto book = offers(takeoff({"1/4 in"}, {need("{kind: punch}"), tubing(kRow, 0, feet(4))}), {a, b});
  BOOST_TEST(servings(book, 0) == "U()");
  BOOST_TEST(servings(book, 1) == "A2(0:0) A1(0:0) B(0:0)");
  BOOST_REQUIRE(book.items.size() == 4u);
  BOOST_TEST(sku_of(book, 0) == "A2");
  BOOST_TEST(sku_of(book, 3) == "B");
}

BOOST_AUTO_TEST_CASE(coils_shorter_than_the_longest_unjoined_piece_do_not_serve) {
  const auto items = "items:\n" + row("SHORT", "{length: 20 ft, price: 4}, {sku: S25, length: 25 ft, price: 5}") +
                     row("LONG", "{length: 20 ft, price: 4}, {sku: L100, length: 100 ft, price: 15}");
  const auto book = offers(takeoff({"1/4 in"}, {tubing(kRow, 0, feet(30))}), {catalog("a", items)}, true);
  BOOST_TEST(servings(book, 0) == "LONG(0:0)");
  BOOST_TEST(book.servings[0].least_coil.tenths_mm == feet(30).tenths_mm);
  BOOST_REQUIRE(misses(book, 0).size() == 1u);
  BOOST_TEST(misses(book, 0)[0] == "SHORT: its longest coil is 25 ft; one piece of 30 ft may not be joined");
  const auto joinable = offers(takeoff({"1/4 in"}, {tubing(kRow, 0, feet(30), true)}), {catalog("a", items)});
  BOOST_TEST(servings(joinable, 0) == "SHORT(0:0) LONG(0:0)");
}

BOOST_AUTO_TEST_CASE(items_that_only_bundles_hold_and_swap_targets_are_on_offer) {
  const auto items =
      "items:\n"
      "  - {sku: PLUG, part: {kind: end closure, size: 1 in}, grips: {inside: 1 in}}\n"
      "  - {sku: CLAMP, part: {kind: end closure, size: 1 in}, grips: {inside: 1 in}}\n"
      "  - {sku: LOST, part: {kind: end closure, size: 1 in}, grips: {inside: 1 in}}\n"
      "bundles:\n"
      "  - sku: B\n"
      "    price: 5\n"
      "    contents:\n"
      "      - {item: PLUG, count: 1, swaps: [{item: CLAMP}]}\n"
      "      - {part: {kind: hole plug}, count: 10}\n";
  const auto book = offers(takeoff({}, {need("{kind: end closure, size: 1 in}"), need("{kind: hole plug}")}),
                           {catalog("a", items)}, true);
  BOOST_TEST(servings(book, 0) == "PLUG() CLAMP()");
  BOOST_TEST(servings(book, 1) == "B/2()");
  BOOST_REQUIRE(misses(book, 0).size() == 1u);
  BOOST_TEST(misses(book, 0)[0] == "LOST: none can be bought: no pack has any left, and no bundle holds it");
}

BOOST_AUTO_TEST_CASE(a_coil_in_a_bundle_counts_for_its_length) {
  const auto items = "items:\n" + row("ROW", "{length: 20 ft, price: 4}") +
                     "bundles:\n  - {sku: B, price: 20, contents: [{item: ROW, length: 50 ft}]}\n";
  const auto book = offers(takeoff({"1/4 in"}, {tubing(kRow, 0, feet(30))}), {catalog("a", items)});
  BOOST_TEST(servings(book, 0) == "ROW(0:0)");
}

BOOST_AUTO_TEST_CASE(what_is_sold_out_is_not_on_offer) {
  const auto items =
      "items:\n"
      "  - {sku: GONE, part: {kind: punch}, packs: [{price: 1, stock: 0}]}\n"
      "  - {sku: THERE, part: {kind: punch}, packs: [{price: 1, stock: 0}, {sku: T5, count: 5, price: 4, stock: 1}]}\n"
      "bundles:\n  - {sku: B, price: 20, stock: 0, contents: [{item: GONE, count: 1}]}\n";
  const auto book = offers(takeoff({}, {need("{kind: punch}")}), {catalog("a", items)});
  BOOST_TEST(servings(book, 0) == "THERE()");
}

BOOST_AUTO_TEST_CASE(needs_nobody_serves_leave_a_gap_not_a_crash) {
  const auto book = offers(takeoff({"1/2 in"}, {need("{kind: other, name: rain barrel}"),
                                                tubing("{kind: supply tubing, size: 1/2 in}", 0, feet(9))}),
                           {catalog("a", "items:\n  - {sku: U, part: {kind: punch}, price: 1}\n")}, true);
  BOOST_TEST(book.servings.empty());
  BOOST_TEST(book.near_misses.empty());
  BOOST_TEST(book.systems[0].families.empty());
}

BOOST_AUTO_TEST_SUITE_END()
