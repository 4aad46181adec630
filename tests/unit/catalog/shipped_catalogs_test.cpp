// The demo suppliers load without a word, and are as large and varied as they claim.
#include <boost/test/unit_test.hpp>
#include <filesystem>
#include <set>

#include "places.h"
#include "teetally/catalog.h"

using namespace teetally;

namespace {

const std::string kFolder = std::string(TEETALLY_SOURCE_DIR) + "/catalogs";

std::vector<Catalog> shipped() {
  Diagnostics diagnostics;
  auto catalogs = read_catalogs({kFolder}, shipped_vocabulary(), "2026-11-25", diagnostics);
  for (const auto& entry : diagnostics.in_order()) BOOST_ERROR(to_text(entry));
  return catalogs;
}

std::set<std::string> kinds_of(const std::vector<Catalog>& catalogs) {
  std::set<std::string> kinds;
  for (const Catalog& catalog : catalogs) {
    for (const Item& item : catalog.items) kinds.insert(item.part.kind);
  }
  return kinds;
}

std::set<std::pair<Diameter, Diameter>> families_of(const std::vector<Catalog>& catalogs, const std::string& size) {
  std::set<std::pair<Diameter, Diameter>> families;
  for (const Catalog& catalog : catalogs) {
    for (const Item& item : catalog.items) {
      const auto found = item.part.attributes.find("size");
      if (found == item.part.attributes.end() || found->second.words != std::vector<std::string>{size}) continue;
      if (item.inside) families.insert({*item.inside, *item.outside});
    }
  }
  return families;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(shipped_catalogs)

BOOST_AUTO_TEST_CASE(three_invented_suppliers_without_a_complaint) {
  const auto catalogs = shipped();
  BOOST_REQUIRE(catalogs.size() == 3u);
  BOOST_TEST(catalogs[0].id == "brackenmere");
  BOOST_TEST(catalogs[1].id == "fernhollow");
  BOOST_TEST(catalogs[2].id == "tarnwick");
  for (const Catalog& catalog : catalogs) {
    BOOST_TEST(catalog.notice == "invented supplier and prices");
    BOOST_TEST(catalog.currency.code == "USD");
    BOOST_TEST(catalog.items.size() >= 100u);
    BOOST_TEST(catalog.bundles.size() >= 3u);
  }
}

BOOST_AUTO_TEST_CASE(every_bundle_lets_parts_be_left_out_and_swapped) {
  for (const Catalog& catalog : shipped()) {
    for (const Bundle& bundle : catalog.bundles) {
      bool left_out = false, swapped = false;
      for (const BundleContent& content : bundle.contents) {
        left_out = left_out || content.leave_out.has_value();
        swapped = swapped || !content.swaps.empty();
      }
      BOOST_TEST(left_out, bundle.sku);
      BOOST_TEST(swapped, bundle.sku);
    }
  }
}

BOOST_AUTO_TEST_CASE(every_kind_of_the_vocabulary_is_sold) {
  const auto kinds = kinds_of(shipped());
  for (const KindType& kind : shipped_vocabulary().kinds) {
    if (kind.open) continue;
    BOOST_TEST(kinds.count(kind.name) == 1u, kind.name);
  }
}

BOOST_AUTO_TEST_CASE(one_nominal_size_is_several_families) {
  const auto catalogs = shipped();
  BOOST_TEST(families_of(catalogs, "1/2 in").size() == 3u);
  BOOST_TEST(families_of(catalogs, "1/4 in").size() == 2u);
  BOOST_TEST(families_of(catalogs, "3/4 in").size() == 2u);
  BOOST_TEST(families_of(catalogs, "13 mm").size() == 2u);
}

BOOST_AUTO_TEST_CASE(ordering_terms_of_every_sort_occur) {
  bool minimum = false, small = false, discounts = false, taxed_shipping = false, all_units = false, steps = false;
  for (const Catalog& catalog : shipped()) {
    minimum = minimum || catalog.terms.minimum_order;
    small = small || catalog.terms.small_order_below;
    discounts = discounts || !catalog.terms.discounts.empty();
    taxed_shipping = taxed_shipping || catalog.terms.tax_on_shipping;
    for (const Item& item : catalog.items) {
      for (const Pack& pack : item.packs) {
        if (pack.prices.size() > 1) (pack.rule == BreakRule::all_units ? all_units : steps) = true;
      }
    }
  }
  BOOST_TEST((minimum && small && discounts && taxed_shipping && all_units && steps));
}

BOOST_AUTO_TEST_SUITE_END()
