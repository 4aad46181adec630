// Parts on hand: what a part is survives being kept, equal parts are one entry, and no entry goes below nothing.
#include "teetally/store/stock.h"

#include <boost/test/unit_test.hpp>

#include "store/part_text.h"
#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

StockChange change(const Item& item, std::int64_t count, Length length = {}) {
  StockChange out;
  out.part = {item, length};
  out.part.item.packs.clear();
  out.change = count;
  return out;
}

std::int64_t on_hand(const Store& store) {
  std::int64_t sum = 0;
  for (const StockEntry& entry : list_stock(store, true)) sum += entry.count;
  return sum;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(stock)

BOOST_AUTO_TEST_CASE(what_a_part_is_survives_being_kept) {
  Diagnostics diagnostics;
  const auto catalogs =
      read_catalogs({std::string(TEETALLY_SOURCE_DIR) + "/catalogs"}, shipped_vocabulary(), "", diagnostics);
  std::size_t items = 0;
  for (const Catalog& catalog : catalogs) {
    for (const Item& item : catalog.items) {
      const auto again = part_from_text(part_text(item));
      BOOST_TEST_REQUIRE(again.has_value());
      BOOST_TEST((again->part == item.part && again->inside == item.inside && again->outside == item.outside));
      BOOST_TEST(part_text(*again) == part_text(item));
      ++items;
    }
  }
  BOOST_TEST(items > 100u);
}

BOOST_AUTO_TEST_CASE(odd_words_survive_too) {
  Item item;
  item.part.kind = "a \"kind\": [with] #marks";
  item.part.attributes["colour\n"] = word_value("\xc3\xa9t\xc3\xa9 - 'x'");
  item.part.attributes["flow"] = range_value(Dimension::flow, -5, 3'785'411'784);
  const auto again = part_from_text(part_text(item));
  BOOST_TEST_REQUIRE(again.has_value());
  BOOST_TEST((again->part == item.part));
  BOOST_TEST(!part_from_text("{\"kind\": 1").has_value());
  BOOST_TEST(!part_from_text("").has_value());
}

BOOST_AUTO_TEST_CASE(equal_parts_are_one_entry_and_lengths_tell_tubing_apart) {
  Store store = opened(folder("stock") + "/store.sqlite");
  const Item tee = catalog("0.65").items[0];
  Item wider = tee;
  wider.grips[0].ranges[0].high = {999'999};
  Diagnostics diagnostics;
  book_stock(store,
             {change(tee, 2), change(tee, 3), change(wider, 1), change(tee, 1, feet(9)), change(tee, 1, feet(8))}, "",
             "2026-04-30", diagnostics);
  const auto entries = list_stock(store, false);
  BOOST_TEST_REQUIRE(entries.size() == 4u);
  BOOST_TEST(entries[0].count == 5);
  BOOST_TEST(entries[0].part.item.sku == "T1");
  const Catalog sold = stock_as_catalog(store, Currency{});
  BOOST_TEST(sold.id == kOnHandId);
  BOOST_TEST(sold.items[0].sku == "P1");
  BOOST_TEST(sold.items[0].packs[0].stock.value_or(0) == 5);
  BOOST_TEST(sold.items[2].packs[0].length.tenths_mm == feet(9).tenths_mm);
}

BOOST_AUTO_TEST_CASE(all_changes_are_booked_or_none) {
  Store store = opened(folder("all-or-none") + "/store.sqlite");
  const Item tee = catalog("0.65").items[0];
  Diagnostics diagnostics;
  book_stock(store, {change(tee, 2)}, "", "2026-04-30", diagnostics);
  StockChange too_many;
  too_many.number = 1;
  too_many.change = -8;
  book_stock(store, {change(tee, 5), too_many}, "", "2026-04-30", diagnostics);
  BOOST_TEST(diagnostics.in_order().at(0).slug == "store/not-that-many");
  BOOST_TEST(on_hand(store) == 2);
}

BOOST_AUTO_TEST_CASE(names_of_entries) {
  BOOST_TEST(stock_number("P12").value_or(0) == 12);
  BOOST_TEST(stock_number("p1").value_or(0) == 1);
  for (const std::string name : {"", "P", "P0", "P-1", "12", "PX", "on-hand-1"}) {
    BOOST_TEST(!stock_number(name).has_value(), name);
  }
}

// Without a cut list, what is left of tubing may be in several pieces: no more than one coil is sure to be in one.
BOOST_AUTO_TEST_CASE(tubing_left_over_is_one_piece_no_longer_than_a_coil) {
  Item tubing;
  tubing.part = {"supply tubing", {{"size", word_value("1/2 in")}}};
  tubing.packs.emplace_back();
  tubing.packs.back().length = feet(100);
  Catalog catalog;
  catalog.id = "alder";
  catalog.items = {tubing};
  OfferBook book;
  book.catalogs = {std::make_shared<const Catalog>(catalog)};
  const auto kept = [&](Length left) {
    Purchase purchase;
    purchase.leftovers = {{0, 0, left.tenths_mm}};
    const std::vector<StockChange> changes = changes_of_order(book, purchase);
    BOOST_TEST_REQUIRE(changes.size() == 1u);
    BOOST_TEST(changes[0].change == 1);
    return changes[0].part.length.tenths_mm;
  };
  BOOST_TEST(kept(feet(150)) == feet(100).tenths_mm);
  BOOST_TEST(kept(feet(30)) == feet(30).tenths_mm);
}

BOOST_AUTO_TEST_SUITE_END()
