// Whatever is kept is kept whole or not at all, wherever the process that keeps it is killed.
#include "store/open_store.h"
#include "teetally/store/ledger.h"
#include "teetally/store/quotes.h"
#include "teetally/store/stock.h"
#include "unit/store/processes.h"

using namespace scratch;

namespace {

const Currency kUsd = *find_currency("USD");

// A change of the stock is always of two parts, one more of each.
void book_two(Store& store, std::int64_t) {
  static const Catalog kMill = catalog("0.65", "  - {sku: P1, name: Punch, part: {kind: punch}, price: 1}\n");
  std::vector<StockChange> changes(2);
  for (std::size_t i = 0; i < 2; ++i) {
    changes[i].part.item = kMill.items[i];
    changes[i].part.item.packs.clear();
    changes[i].change = 1;
  }
  Diagnostics diagnostics;
  book_stock(store, changes, "an order", "2026-04-30", diagnostics);
  if (diagnostics.has_errors()) throw std::logic_error(report_text(diagnostics));
}

std::int64_t whole_changes(Store& store) {
  const std::vector<StockEntry> entries = list_stock(store, true);
  if (entries.empty()) return 0;
  BOOST_TEST_REQUIRE(entries.size() == 2u);
  BOOST_TEST(entries[0].count == entries[1].count);
  BOOST_TEST(store.database().number("SELECT count(*) FROM stock_move") == 2 * entries[0].count);
  return entries[0].count;
}

// What is due of two members rises by one for both; then one of them pays one.
void book_and_pay(Store& store, std::int64_t number) {
  Diagnostics diagnostics;
  const std::int64_t due = (number + 1) / 2;
  if (number % 2 == 1) {
    book_dues(store, {"Pool", "Spring", kUsd, {{"Ines", {due}}, {"Tove", {due}}}}, "frozen", "2026-04-01", diagnostics);
  } else {
    note_payment(store, {1, "Ines", LedgerKind::paid, {1}}, "cash", "2026-04-01", diagnostics);
  }
  if (diagnostics.has_errors()) throw std::logic_error(report_text(diagnostics));
}

std::int64_t whole_bookings(Store& store) {
  const std::vector<LedgerRound> rounds = list_rounds(store);
  if (rounds.empty()) return 0;
  BOOST_TEST_REQUIRE(rounds[0].balances.size() == 2u);
  const LedgerBalance &ines = rounds[0].balances[0], &tove = rounds[0].balances[1];
  BOOST_TEST(ines.due.minor == tove.due.minor);
  BOOST_TEST(tove.paid.minor == 0);
  Diagnostics diagnostics;
  const auto entries = static_cast<std::int64_t>(round_account(store, 1, diagnostics)->entries.size());
  BOOST_TEST(entries == 2 * ines.due.minor + ines.paid.minor);
  return ines.due.minor + ines.paid.minor;
}

void keep_one(Store& store, std::int64_t number) {
  Quote quote;
  CustomerCopy& copy = quote.copy;
  copy.customer = "Somebody";
  copy.made_on = "2026-04-30";
  copy.currency = kUsd;
  copy.total = copy.price = {number};
  copy.parts = {{"tee", "4"}, {"punch", "1"}};
  copy.sections = {{"Materials", {number}}};
  copy.payments = {{"On completion", {number}}};
  copy.options = {{"Better", "in brass", {2}, {0}, {2}}};
  quote.costs.options = {{"Better", {1}, {1}, {500'000}}};
  quote.costs.lines = {{CostPart::material, "mill", "T1", "Tee", 4, Money{1}, {4}},
                       {CostPart::labour, "", "", "tee", 150, std::nullopt, {2000}}};
  const OrderedLine tees{"T1", "Tee", false, 1, {}, 4, {{"T1", "", 1}}, {4}};
  const std::vector<OrderedFrom> orders = {{"mill", "Mill Parts", {tees, tees}, {{8}, {}, {}, {}, {}, {8}}}};
  if (number % 2 == 1) return keep_quote(store, quote, orders);
  Diagnostics diagnostics;
  revise_quote(store, number / 2, quote, orders, diagnostics);
}

std::int64_t whole_quotes(Store& store) {
  Database& database = store.database();
  const std::int64_t revisions = database.number("SELECT count(*) FROM revision");
  BOOST_TEST(database.number("SELECT count(*) FROM quote") == (revisions + 1) / 2);
  BOOST_TEST(database.number("SELECT count(*) FROM revision_line") == 4 * revisions);
  BOOST_TEST(database.number("SELECT count(*) FROM cost_line") == 2 * revisions);
  BOOST_TEST(database.number("SELECT count(*) FROM quoted_option") == revisions);
  BOOST_TEST(database.number("SELECT count(*) FROM supplier_order") == revisions);
  BOOST_TEST(database.number("SELECT count(*) FROM order_line") == 2 * revisions);
  BOOST_TEST(database.number("SELECT count(*) FROM order_change") == 2 * revisions);
  return revisions;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(killed)

BOOST_AUTO_TEST_CASE(changes_of_the_stock) {
  kill_while(folder("killed-stock") + "/s.sqlite", book_two, whole_changes);
}

BOOST_AUTO_TEST_CASE(entries_of_the_ledger) {
  kill_while(folder("killed-ledger") + "/s.sqlite", book_and_pay, whole_bookings);
}

BOOST_AUTO_TEST_CASE(quotes_and_revisions) {
  kill_while(folder("killed-quotes") + "/s.sqlite", keep_one, whole_quotes);
}

// A store of the first version, killed while it is brought up to date.
BOOST_AUTO_TEST_CASE(an_older_store_is_older_or_newer_and_keeps_what_it_has) {
  const std::string path = folder("killed-older") + "/s.sqlite";
  const auto newest = static_cast<std::int64_t>(store_steps().size());
  const auto make_older = [&] {
    for (const auto& file : fs::directory_iterator(fs::path(path).parent_path())) fs::remove(file);
    Diagnostics diagnostics;
    auto store = open_store(path, StoreUse::write, {store_steps().front()}, diagnostics);
    record_catalogs(*store, {catalog("0.65")}, "2026-04-30");
  };
  make_older();
  Killer killer([&] { opened(path); });
  std::int64_t older = 0, newer = 0;
  for (int round = 0; round < kills(); ++round) {
    make_older();
    killer.run();
    const std::int64_t version = Database(path, Database::Access::read).number("PRAGMA user_version");
    BOOST_TEST((version == 1 || version == newest), "version " << version);
    ++(version == 1 ? older : newer);
    Store store = opened(path);
    is_sound(store.database());
    BOOST_TEST(periods(store, "T1") == "2026-04-30..2026-04-30 0.65");
  }
  BOOST_TEST_MESSAGE(older << " killed before, " << newer << " after it was up to date");
  BOOST_WARN(older > 0);  // else no kill came in time: that is the machine's affair, not a mistake
}

// The copy is the one before or the new one, never half of one.
BOOST_AUTO_TEST_CASE(a_backup_is_whole_or_the_one_before) {
  const std::string place = folder("killed-backup");
  const std::string path = place + "/s.sqlite", copy = place + "/copy.sqlite";
  std::int64_t number = 1, before = 1, renewed = 0;
  Store store = opened(path);
  book_two(store, number);
  Killer killer([&] { back_up(opened(path), copy); });
  for (int round = 0; round < kills(); ++round) {
    book_two(store, ++number);
    killer.run();
    Store kept = opened(copy);
    is_sound(kept.database());
    const std::int64_t there = whole_changes(kept);
    BOOST_TEST((there == number || there == before), there << " is neither " << before << " nor " << number);
    renewed += there == number ? 1 : 0;
    before = there;
  }
  BOOST_TEST_MESSAGE(kills() << " kills, the copy was new after " << renewed);
  BOOST_WARN(renewed < kills());  // else no kill came in time: that is the machine's affair, not a mistake
}

BOOST_AUTO_TEST_SUITE_END()
