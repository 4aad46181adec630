// What a catalog file says arrives unchanged.
#include <boost/test/unit_test.hpp>

#include "unit/catalog/catalog_text.h"

using namespace catalog_text;
using namespace teetally;

namespace {

const std::string kCatalog =
    "teetally: catalog 1\n"
    "supplier: {id: mill, name: The Old Mill, notice: invented}\n"
    "currency: USD\n"
    "valid: {from: 2026-01-01, until: 2026-12-31}\n"
    "units: {length: ft, flow: gph, pressure: psi}\n"
    "ordering:\n"
    "  shipping: [{from: 0, fee: 7.95}, {from: 60.00, fee: 0}]\n"
    "  minimum order: 10\n"
    "  small order: {below: 20.00, fee: 2.50}\n"
    "  discounts: [{from: 150.00, percent: 5 %}]\n"
    "  tax: {percent: 8.25 %, on shipping: yes}\n"
    "items:\n"
    "  - sku: P\n"
    "    name: Supply tubing\n"
    "    part: {kind: supply tubing, size: 1/2 in}\n"
    "    inside: 0.600 in\n"
    "    outside: 17.78 mm\n"
    "    packs:\n"
    "      - {length: 100, price: 14.95}\n"
    "      - {sku: P5, length: 500 ft, price: 62.00, stock: 3}\n"
    "  - sku: T\n"
    "    part: {kind: tee, size: 1/2 in, branch size: 1/4 in}\n"
    "    grips: [{inside: 0.600 in}, {inside: [0.600 in, 0.615 in]}, {outside: 0.240 in to 0.250 in}]\n"
    "    packs:\n"
    "      - {count: 10, price: 4.90, minimum: 2, multiple: 3,\n"
    "         breaks: {rule: incremental, steps: [{from: 3, price: 4.60}]}}\n"
    "bundles:\n"
    "  - sku: B\n"
    "    name: Bundle\n"
    "    price: 24.95\n"
    "    stock: 20\n"
    "    limit: 4\n"
    "    contents:\n"
    "      - {item: P5, length: 50 ft}\n"
    "      - {item: T, count: 4, leave out: 1.00}\n"
    "      - {part: {kind: hole plug}, count: 10, swaps: [{item: H, extra: 0.10}]}\n";

}  // namespace

BOOST_AUTO_TEST_SUITE(catalog_reader)

BOOST_AUTO_TEST_CASE(a_whole_file) {
  std::string text = kCatalog;
  text.insert(text.find("bundles:"), "  - {sku: H, part: {kind: hole plug}, price: 0.20}\n");
  const Reading reading = read(text);
  for (const auto& entry : reading.found) BOOST_ERROR(to_text(entry));
  BOOST_REQUIRE(reading.catalog.has_value());
  const Catalog& c = *reading.catalog;
  BOOST_TEST(c.id == "mill");
  BOOST_TEST(c.name == "The Old Mill");
  BOOST_TEST(c.notice == "invented");
  BOOST_TEST(c.valid_until.value() == "2026-12-31");
  BOOST_REQUIRE(c.terms.shipping.size() == 2u);
  BOOST_TEST(c.terms.shipping[1].from.minor == 6000);
  BOOST_TEST(c.terms.minimum_order->minor == 1000);
  BOOST_TEST(c.terms.small_order_below->minor == 2000);
  BOOST_TEST(c.terms.small_order_fee.minor == 250);
  BOOST_TEST(c.terms.discounts[0].percent.ppm == 50'000);
  BOOST_TEST(c.terms.tax.ppm == 82'500);
  BOOST_TEST(c.terms.tax_on_shipping);

  BOOST_REQUIRE(c.items.size() == 4u);  // three listed, one that only the bundle holds
  const Item& p = c.items[0];
  BOOST_TEST(p.inside->tenths_um == 600 * 254);
  BOOST_TEST(p.outside->tenths_um == 700 * 254);
  BOOST_REQUIRE(p.packs.size() == 2u);
  BOOST_TEST(p.packs[0].sku == "P");
  BOOST_TEST(p.packs[0].count == 1);
  BOOST_TEST(p.packs[0].length.tenths_mm == feet(100).tenths_mm);
  BOOST_TEST(!p.packs[0].stock.has_value());
  BOOST_TEST(p.packs[1].sku == "P5");
  BOOST_TEST(p.packs[1].stock.value() == 3);

  const Item& t = c.items[1];
  BOOST_TEST(t.name == "tee, size 1/2 in, branch size 1/4 in");
  BOOST_REQUIRE(t.grips.size() == 3u);
  BOOST_TEST(t.grips[1].ranges.size() == 2u);
  BOOST_TEST((t.grips[2].by == Grip::By::outside));
  BOOST_TEST(t.grips[2].ranges[0].low.tenths_um == 240 * 254);
  BOOST_TEST(t.grips[2].ranges[0].high.tenths_um == 250 * 254);
  const Pack& ten = t.packs[0];
  BOOST_TEST(ten.count == 10);
  BOOST_TEST(ten.minimum == 2);
  BOOST_TEST(ten.multiple == 3);
  BOOST_TEST((ten.rule == BreakRule::incremental));
  BOOST_REQUIRE(ten.prices.size() == 2u);
  BOOST_TEST(ten.prices[0].price.minor == 490);
  BOOST_TEST(ten.prices[1].from == 3);

  const Bundle& b = c.bundles.at(0);
  BOOST_TEST(b.stock.value() == 4);
  BOOST_REQUIRE(b.contents.size() == 3u);
  BOOST_TEST(b.contents[0].item == 0);  // named by the sku of one of its packs
  BOOST_TEST(b.contents[0].length.tenths_mm == feet(50).tenths_mm);
  BOOST_TEST(b.contents[1].leave_out->minor == 100);
  BOOST_TEST(b.contents[2].item == 3);
  BOOST_TEST(c.items[3].sku == "B/3");
  BOOST_TEST(c.items[3].packs.empty());
  BOOST_TEST(b.contents[2].swaps.at(0).item == 2);
  BOOST_TEST(b.contents[2].swaps.at(0).extra.minor == 10);
}

BOOST_AUTO_TEST_CASE(a_price_on_the_item_is_a_pack_of_one) {
  const Reading reading = read(with_items(kTee));
  const Pack& pack = reading.catalog.value().items.at(0).packs.at(0);
  BOOST_TEST(pack.sku == "T1");
  BOOST_TEST(pack.count == 1);
  BOOST_TEST(price_of(pack, 3).minor == 195);
}

BOOST_AUTO_TEST_CASE(a_single_shipping_fee_is_one_step) {
  const Reading reading = read(with_ordering("{shipping: 7.95}"));
  BOOST_REQUIRE(reading.catalog.value().terms.shipping.size() == 1u);
  BOOST_TEST(reading.catalog->terms.shipping[0].fee.minor == 795);
}

BOOST_AUTO_TEST_CASE(the_dump_names_what_was_read) {
  const std::string dump = to_text(
      to_json(read(with_bundles("  - {sku: B1, price: 5, contents: [{item: T1, count: 2}]}\n")).catalog.value()));
  for (const char* part : {"\"id\": \"mill\"", "\"price\": \"14.95\"", "\"inside_tenths_um\": 152400",
                           "\"sku\": \"B1\"", "\"rule\": \"all units\""}) {
    BOOST_TEST(dump.find(part) != std::string::npos, part << " is not in\n" << dump);
  }
}

BOOST_AUTO_TEST_SUITE_END()
