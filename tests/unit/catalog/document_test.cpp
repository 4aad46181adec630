// The examples of docs/catalog-file.md are read without a complaint and cost what the page says.
#include <boost/test/unit_test.hpp>

#include "places.h"
#include "unit/catalog/catalog_text.h"

using namespace teetally;

namespace {

std::string document() {
  Diagnostics diagnostics;
  return read_source(std::string(TEETALLY_SOURCE_DIR) + "/docs/catalog-file.md", diagnostics)->text;
}

// The fenced example that starts with this line.
std::string example(const std::string& first_line) {
  const std::string text = document();
  const std::size_t start = text.find("```yaml\n" + first_line);
  BOOST_REQUIRE(start != std::string::npos);
  const std::size_t begin = start + 8;
  return text.substr(begin, text.find("```", begin) - begin);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(catalog_document)

BOOST_AUTO_TEST_CASE(the_small_catalog) {
  const auto reading = catalog_text::read(example("teetally: catalog 1"));
  for (const auto& entry : reading.found) BOOST_ERROR(to_text(entry));
  BOOST_REQUIRE(reading.catalog.has_value());
  BOOST_TEST(reading.catalog->items.size() == 4u);
  const OrderCost cost = landed_cost(reading.catalog->terms, Money{16000});
  BOOST_TEST(cost.discount.minor == 800);
  BOOST_TEST(cost.shipping.minor == 0);
  BOOST_TEST(cost.tax.minor == 1254);
  BOOST_TEST(cost.total.minor == 16454);
  BOOST_TEST(price_of(reading.catalog->items[1].packs[1], 3).minor == 1380);
}

BOOST_AUTO_TEST_CASE(the_parts_on_hand) {
  Diagnostics diagnostics;
  const auto shed = read_on_hand(source_from_text("shed.yaml", example("teetally: on hand 1")), shipped_vocabulary(),
                                 Currency{}, diagnostics);
  for (const auto& entry : diagnostics.in_order()) BOOST_ERROR(to_text(entry));
  BOOST_REQUIRE(shed.has_value());
  BOOST_TEST(shed->items[2].packs[0].stock.value() == 3);
}

BOOST_AUTO_TEST_SUITE_END()
