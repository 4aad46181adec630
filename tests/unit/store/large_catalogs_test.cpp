// A remembered catalog is the one that reading the file gives, or none.
#include "teetally/store/large_catalogs.h"

#include <boost/test/unit_test.hpp>
#include <fstream>
#include <sstream>

#include "store/catalog_bytes.h"
#include "store/sqlite.h"
#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

Catalog shipped(const std::string& name) {
  std::ifstream file(std::string(TEETALLY_SOURCE_DIR) + "/catalogs/" + name);
  std::ostringstream text;
  text << file.rdbuf();
  Diagnostics diagnostics;
  auto read = read_catalog(source_from_text(name, text.str()), shipped_vocabulary(), diagnostics);
  if (!read) throw std::logic_error(report_text(diagnostics));
  return std::move(*read);
}

// The value and where everything in it stands.
std::string whole(const Catalog& catalog) {
  std::string text = to_text(to_json(catalog));
  const auto add = [&](const Place& place) { text += "\n" + to_string(place); };
  for (const Item& item : catalog.items) {
    add(item.place);
    for (const Pack& pack : item.packs) {
      add(pack.place);
      for (const PriceBreak& step : pack.prices) add(step.place);
    }
  }
  for (const Bundle& bundle : catalog.bundles) {
    add(bundle.place);
    for (const BundleContent& content : bundle.contents) add(content.place);
  }
  for (const ShippingStep& step : catalog.terms.shipping) add(step.place);
  for (const DiscountStep& step : catalog.terms.discounts) add(step.place);
  add(catalog.terms.place);
  return text;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(large_catalogs)

BOOST_AUTO_TEST_CASE(a_catalog_comes_back_to_the_last_place) {
  for (const std::string name : {"brackenmere.yaml", "fernhollow.yaml", "tarnwick.yaml"}) {
    const Catalog catalog = shipped(name);
    const auto again = catalog_from_bytes(to_bytes(catalog), catalog.source);
    BOOST_TEST_REQUIRE(again.has_value());
    BOOST_TEST((whole(*again) == whole(catalog)));
    BOOST_TEST((to_bytes(*again) == to_bytes(catalog)));
    BOOST_TEST(again->items.front().place.source == catalog.source);
  }
}

BOOST_AUTO_TEST_CASE(bytes_that_are_not_whole_give_nothing) {
  const Catalog catalog = scratch::catalog("0.65");
  const std::string bytes = to_bytes(catalog);
  for (std::size_t length = 0; length < bytes.size(); ++length) {
    BOOST_TEST(!catalog_from_bytes(std::string_view(bytes).substr(0, length), catalog.source).has_value());
  }
  BOOST_TEST(!catalog_from_bytes(bytes + "x", catalog.source).has_value());
}

BOOST_AUTO_TEST_CASE(only_the_same_file_read_in_the_same_way_is_found) {
  Store store = opened(folder("remember") + "/store.sqlite");
  const Catalog catalog = shipped("fernhollow.yaml");
  const std::string mark = reading_mark("0.1.0", shipped_vocabulary());
  BOOST_TEST(!remembered_catalog(store, catalog.source, mark).has_value());
  remember_catalog(store, catalog, mark);
  const auto again = remembered_catalog(store, catalog.source, mark);
  BOOST_TEST_REQUIRE(again.has_value());
  BOOST_TEST((whole(*again) == whole(catalog)));
  BOOST_TEST(!remembered_catalog(store, source_from_text("x", catalog.source->text + "\n"), mark).has_value());
  BOOST_TEST(!remembered_catalog(store, catalog.source, reading_mark("0.1.1", shipped_vocabulary())).has_value());
  Vocabulary longer = shipped_vocabulary();
  longer.kinds.front().attributes.push_back({});
  BOOST_TEST(reading_mark("0.1.0", longer) != mark);
}

BOOST_AUTO_TEST_CASE(a_damaged_entry_is_not_used) {
  Store store = opened(folder("damaged-entry") + "/store.sqlite");
  const Catalog catalog = shipped("fernhollow.yaml");
  remember_catalog(store, catalog, "mark");
  store.database().run("UPDATE reading SET bytes = CAST(replace(CAST(bytes AS TEXT), 'FH', 'XX') AS BLOB)");
  BOOST_TEST(!remembered_catalog(store, catalog.source, "mark").has_value());
}

BOOST_AUTO_TEST_CASE(only_the_latest_are_remembered) {
  Store store = opened(folder("most") + "/store.sqlite");
  for (int i = 0; i < kMostRemembered + 3; ++i) remember_catalog(store, catalog("0." + std::to_string(10 + i)), "mark");
  BOOST_TEST(store.database().number("SELECT count(*) FROM reading") == kMostRemembered);
  BOOST_TEST(!remembered_catalog(store, catalog("0.12").source, "mark").has_value());
  BOOST_TEST(remembered_catalog(store, catalog("0.13").source, "mark").has_value());
}

BOOST_AUTO_TEST_SUITE_END()
