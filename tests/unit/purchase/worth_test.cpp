// What leftovers cost: their share of the packs and bundles they came in. Figures worked out by hand.
#include "teetally/purchase/worth.h"

#include <boost/test/unit_test.hpp>
#include <map>

#include "hand_made_book.h"

using namespace teetally;

namespace {

struct Shop {
  test::HandMadeBook made;
  int shop = made.shop({});

  // The worth of each leftover of the cheapest order, by sku; -1 where there is no price.
  std::map<std::string, std::int64_t> worth() const {
    const OfferBook book = made.book();
    const Purchase purchase = buy(book, {});
    BOOST_TEST_REQUIRE((purchase.outcome == Outcome::bought));
    const auto found = worth_of_leftovers(book, purchase);
    BOOST_TEST_REQUIRE(found.size() == purchase.leftovers.size());
    std::map<std::string, std::int64_t> all;
    for (std::size_t i = 0; i < found.size(); ++i) {
      const Leftover& left = purchase.leftovers[i];
      const Item& item =
          book.catalogs[static_cast<std::size_t>(left.catalog)]->items[static_cast<std::size_t>(left.item)];
      all[item.sku] = found[i] ? found[i]->minor : -1;
    }
    return all;
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(worth)

BOOST_AUTO_TEST_CASE(of_a_pack_the_pieces_left_over_are_worth_their_share) {
  Shop shop;
  shop.made.need(7, {shop.made.item(shop.shop, {test::pack_of(10, 999)})});
  BOOST_TEST(shop.worth()["shop-1-item-1"] == 300);  // 999 * 3 / 10 = 299.7
}

// Loose the bundle's contents cost 2 x 100 + 300 = 500; the bundle costs 340. One of the two pieces is left over:
// 100 / 500 of 340.
BOOST_AUTO_TEST_CASE(a_bundle_is_shared_by_what_its_contents_cost_loose) {
  Shop shop;
  const int a = shop.made.item(shop.shop, {test::pack_of(1, 100)});
  const int b = shop.made.item(shop.shop, {test::pack_of(1, 300)});
  shop.made.bundle(shop.shop, 340, {{a, 2, -1, {}}, {b, 1, -1, {}}});
  shop.made.need(1, {a});
  shop.made.need(1, {b});
  BOOST_TEST(shop.worth()["shop-1-item-1"] == 68);  // 340 * 100 / 500
}

// By the pack that is cheapest for its size: ten for 500 make 50 a piece, so the contents cost 4 x 50 + 100 = 300.
BOOST_AUTO_TEST_CASE(the_pack_that_is_cheapest_for_its_size_counts) {
  Shop shop;
  const int a = shop.made.item(shop.shop, {test::pack_of(1, 100), test::pack_of(10, 500)});
  const int b = shop.made.item(shop.shop, {test::pack_of(1, 100)});
  shop.made.bundle(shop.shop, 150, {{a, 4, -1, {}}, {b, 1, -1, {}}});
  shop.made.need(1, {a});
  shop.made.need(1, {b});
  BOOST_TEST(shop.worth()["shop-1-item-1"] == 75);  // 150 * 50 * 3 / 300
}

BOOST_AUTO_TEST_CASE(what_comes_in_bundles_only_has_no_price) {
  Shop shop;
  const int a = shop.made.item(shop.shop, {});
  const int b = shop.made.item(shop.shop, {test::pack_of(1, 300)});
  shop.made.bundle(shop.shop, 340, {{a, 2, -1, {}}, {b, 1, -1, {}}});
  shop.made.need(1, {a});
  shop.made.need(1, {b});
  BOOST_TEST(shop.worth()["shop-1-item-1"] == -1);
}

// What is left out of a bundle takes no share of what is paid for it.
BOOST_AUTO_TEST_CASE(changes_of_a_bundle_count) {
  Shop shop;
  const int a = shop.made.item(shop.shop, {test::pack_of(1, 100)});
  const int b = shop.made.item(shop.shop, {test::pack_of(1, 300)});
  const int c = shop.made.item(shop.shop, {test::pack_of(1, 200)});
  shop.made.bundle(shop.shop, 420, {{a, 2, -1, {}}, {b, 1, -1, {}}, {c, 1, 120, {}}});
  shop.made.need(1, {a});
  shop.made.need(1, {b});
  BOOST_TEST(shop.worth()["shop-1-item-1"] == 60);  // (420 - 120) * 100 / 500
}

BOOST_AUTO_TEST_SUITE_END()
