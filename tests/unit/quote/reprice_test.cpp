// The same order at other prices, with bundles that were changed.
#include <boost/test/unit_test.hpp>

#include "teetally/quote/again.h"

using namespace teetally;

namespace {

Catalog catalog(const std::string& bundle, const std::string& punch = "price: 3.00") {
  const std::string text =
      "teetally: catalog 1\nsupplier: {id: mill, name: Mill Parts}\ncurrency: USD\nordering: {minimum order: 5}\n"
      "items:\n"
      "  - {sku: T1, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, grips: {inside: 0.600 in}, price: 0.60}\n"
      "  - {sku: T2, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, grips: {inside: 0.620 in}, price: 0.60}\n"
      "  - {sku: P1, part: {kind: punch}, packs: [{count: 1, " +
      punch +
      "}]}\n"
      "bundles:\n  - " +
      bundle + "\n";
  Diagnostics diagnostics;
  auto read = read_catalog(source_from_text("mill.yaml", text), shipped_vocabulary(), diagnostics);
  if (!read) throw std::logic_error(report_text(diagnostics));
  return std::move(*read);
}

std::string bundle(const std::string& price, const std::string& of_tees) {
  return "{sku: B1, price: " + price + ", contents: [{item: T1, count: 4" + of_tees + "}, {item: P1, count: 1}]}";
}

// Two bundles, one without its tees, one with other tees; and three punches.
std::vector<OrderedFrom> ordered() {
  OrderedLine bundles, punches;
  bundles.sku = "B1";
  bundles.bundle = true;
  bundles.count = 2;
  bundles.changes = {{"T1", "", 1}, {"T1", "T2", 1}};
  punches.sku = "P1";
  punches.count = 3;
  return {{"mill", "Mill Parts", {bundles, punches}, {}}};
}

std::string why(const Catalog& now, std::size_t line) { return reprice(ordered(), {now}).orders[0].lines[line].why; }

}  // namespace

BOOST_AUTO_TEST_SUITE(repricing)

BOOST_AUTO_TEST_CASE(changed_bundles_cost_what_their_changes_cost_now) {
  const Catalog now = catalog(bundle("7.00", ", leave out: 1.50, swaps: [{item: T2, extra: 0.10}]"));
  const Repriced repriced = reprice(ordered(), {now});
  // 2 x 7.00, less 1.50, plus 4 x 0.10; and 3 x 3.00
  BOOST_TEST(repriced.orders[0].lines[0].now->minor == 1290);
  BOOST_TEST(repriced.orders[0].lines[1].now->minor == 900);
  BOOST_TEST(repriced.now->minor == 2190);
}

BOOST_AUTO_TEST_CASE(what_is_no_longer_possible_is_said) {
  const std::string allowed = ", leave out: 1.50, swaps: [{item: T2, extra: 0.10}]";
  BOOST_TEST(why(catalog(bundle("7.00", ", leave out: 1.50")), 0) == "may no longer be changed as it was");
  BOOST_TEST(why(catalog("{sku: B2, price: 7.00, contents: [{item: P1, count: 1}]}"), 0) == "no longer listed");
  BOOST_TEST(why(catalog(bundle("7.00", allowed), "price: 3.00, stock: 2"), 1) == "only 2 left");
  BOOST_TEST(why(catalog(bundle("7.00", allowed), "price: 3.00, minimum: 4"), 1) == "at least 4 at a time now");
  BOOST_TEST(why(catalog(bundle("7.00", allowed), "price: 3.00, multiple: 2"), 1) == "sold in multiples of 2 now");
  BOOST_TEST(why(catalog(bundle("7.00", allowed)), 1) == "");
}

BOOST_AUTO_TEST_CASE(an_order_may_have_become_too_small) {
  const Catalog now = catalog(bundle("1.00", ", leave out: 0.50, swaps: [{item: T2, extra: 0.10}]"), "price: 0.90");
  BOOST_TEST(reprice(ordered(), {now}).orders[0].why == "less than the least order of 5.00");
  BOOST_TEST(reprice(ordered(), {}).orders[0].why == "no catalog of this supplier is given");
  BOOST_TEST(!reprice(ordered(), {}).now);
}

BOOST_AUTO_TEST_SUITE_END()
