// Parts on hand as a catalog that charges nothing.
#include <algorithm>
#include <boost/test/unit_test.hpp>

#include "teetally/catalog.h"

using namespace teetally;

namespace {

struct Read {
  std::optional<Catalog> catalog;
  std::vector<Diagnostic> found;
  bool has(const std::string& slug, int line) const {
    return std::any_of(found.begin(), found.end(),
                       [&](const Diagnostic& entry) { return entry.slug == slug && entry.place.line == line; });
  }
};
Read read(const std::string& text) {
  Diagnostics diagnostics;
  Read read;
  read.catalog =
      read_on_hand(source_from_text("shed.yaml", text), shipped_vocabulary(), *find_currency("USD"), diagnostics);
  read.found = diagnostics.in_order();
  return read;
}

const std::string kHead = "teetally: on hand 1\nunits: {length: ft}\nparts:\n";  // the first part is on line 4

}  // namespace

BOOST_AUTO_TEST_SUITE(on_hand)

BOOST_AUTO_TEST_CASE(each_part_is_an_item_at_no_charge_while_stock_lasts) {
  const Read shed = read(kHead +
                         "  - {kind: tee, size: 1/2 in, branch size: 1/2 in, grips: {inside: 0.600 in}, count: 7}\n"
                         "  - {kind: supply tubing, size: 1/2 in, inside: 0.600 in, outside: 0.700 in, length: 42}\n"
                         "  - {kind: other, name: rain barrel, colour: green, count: 2}\n");
  BOOST_TEST(shed.found.empty());
  BOOST_REQUIRE(shed.catalog.has_value());
  const Catalog& catalog = *shed.catalog;
  BOOST_TEST(catalog.id == kOnHandId);
  BOOST_REQUIRE(catalog.items.size() == 3u);
  BOOST_TEST(*catalog.items[0].packs[0].stock == 7);
  BOOST_TEST(price_of(catalog.items[0].packs[0], 7).minor == 0);
  BOOST_TEST(catalog.items[1].packs[0].length.tenths_mm == feet(42).tenths_mm);
  BOOST_TEST(*catalog.items[1].packs[0].stock == 1);
  BOOST_TEST(catalog.items[2].part.attributes.size() == 2u);
  BOOST_TEST(landed_cost(catalog.terms, Money{0}).total.minor == 0);
}

BOOST_AUTO_TEST_CASE(mistakes_are_named) {
  BOOST_TEST(read("teetally: parts list 1\nparts: []\n").has("catalog/not-on-hand", 1));
  BOOST_TEST(read(kHead + "  - {kind: supply tubing, size: 1/2 in, inside: 0.6 in, outside: 0.7 in, count: 2}\n")
                 .has("catalog/length-or-count", 4));
  BOOST_TEST(read(kHead + "  - {kind: punch, length: 2 ft}\n").has("catalog/length-or-count", 4));
  BOOST_TEST(read(kHead + "  - {kind: supply tubing, size: 1/2 in, length: 2 ft}\n")
                 .has("catalog/tubing-without-diameters", 4));
  BOOST_TEST(read(kHead + "  - {kind: punch, price: 2}\n").has("catalog/unknown-key", 4));
  BOOST_TEST(read(kHead + "  - {kind: punsh}\n").has("base/unknown-kind", 4));
}

BOOST_AUTO_TEST_SUITE_END()
