// The ledger only grows, its sums are those of what was noted, and stores from before it keep what they have.
#include "teetally/store/ledger.h"

#include <boost/test/unit_test.hpp>
#include <map>
#include <random>

#include "store/open_store.h"
#include "store/sqlite.h"
#include "teetally/store/stock.h"
#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

const Currency kUsd = *find_currency("USD");

std::string slugs(const Diagnostics& diagnostics) {
  std::string all;
  for (const Diagnostic& d : diagnostics.in_order()) all += d.slug + " ";
  return all;
}

std::int64_t book(Store& store, const std::vector<LedgerDue>& dues, const std::string& day = "2026-04-01") {
  Diagnostics diagnostics;
  const auto number = book_dues(store, {"Pool", "Spring", kUsd, dues}, "frozen", day, diagnostics);
  BOOST_TEST_REQUIRE(number.has_value());
  return *number;
}

LedgerRound shown(const Store& store, std::int64_t number) {
  Diagnostics diagnostics;
  return *round_account(store, number, diagnostics);
}

}  // namespace

BOOST_AUTO_TEST_SUITE(ledger)

BOOST_AUTO_TEST_CASE(booking_again_adds_the_difference_only) {
  Store store = opened(folder("ledger-again") + "/store.sqlite");
  const std::int64_t round = book(store, {{"Ines", {500}}, {"Tove", {300}}, {"Ines", {100}}, {"Rafa", {}}});
  BOOST_TEST(shown(store, round).entries.size() == 3u);
  BOOST_TEST(book(store, {{"Ines", {600}}, {"Tove", {300}}, {"Rafa", {}}}) == round);
  BOOST_TEST(shown(store, round).entries.size() == 3u);
  book(store, {{"Ines", {550}}}, "2026-04-09");  // Tove has left the pool
  const LedgerRound after = shown(store, round);
  BOOST_TEST(after.entries.size() == 5u);
  BOOST_TEST(after.balances[0].due.minor == 550);
  BOOST_TEST(after.balances[2].member == "Tove");
  BOOST_TEST(after.balances[2].due.minor == 0);
}

BOOST_AUTO_TEST_CASE(nothing_that_was_booked_can_be_changed) {
  Store store = opened(folder("ledger-stands") + "/store.sqlite");
  book(store, {{"Ines", {500}}});
  for (const std::string table : {"ledger_round", "ledger_account", "ledger_entry"}) {
    BOOST_CHECK_THROW(store.database().run("UPDATE " + table + " SET id = id + 1"), WorldFailure);
    BOOST_CHECK_THROW(store.database().run("DELETE FROM " + table), WorldFailure);
  }
  BOOST_TEST(shown(store, 1).balances[0].due.minor == 500);
}

BOOST_AUTO_TEST_CASE(balances_are_the_sums_of_what_was_noted) {
  Store store = opened(folder("ledger-sums") + "/store.sqlite");
  std::mt19937 dice(5);
  const auto roll = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(dice); };
  const std::vector<std::string> members{"Ines", "Tove", "Rafa"};
  std::map<std::string, Money> due, paid, refunded;
  for (const std::string& member : members) due[member] = {roll(0, 9000)};
  const std::int64_t round = book(store, {{"Ines", due["Ines"]}, {"Tove", due["Tove"]}, {"Rafa", due["Rafa"]}});
  for (int step = 0; step < 60; ++step) {
    Diagnostics diagnostics;
    const std::string& member = members[roll(0, 2)];
    const Money amount{roll(1, 5000)};
    const bool back = roll(0, 3) == 0;
    note_payment(store, {round, member, back ? LedgerKind::refunded : LedgerKind::paid, amount}, "", "2026-04-02",
                 diagnostics);
    BOOST_TEST(!diagnostics.has_errors());
    if (roll(0, 4) == 0) {
      cancel_entry(store, round, shown(store, round).entries.back().number, "slip", "2026-04-02", diagnostics);
      BOOST_TEST(!diagnostics.has_errors());
    } else {
      (back ? refunded : paid)[member] += amount;
    }
  }
  for (const LedgerBalance& balance : shown(store, round).balances) {
    BOOST_TEST((balance.due == due[balance.member]));
    BOOST_TEST((balance.paid == paid[balance.member]));
    BOOST_TEST((balance.refunded == refunded[balance.member]));
    BOOST_TEST((balance.owes() == due[balance.member] - paid[balance.member] + refunded[balance.member]));
  }
}

BOOST_AUTO_TEST_CASE(what_is_refused_leaves_no_trace) {
  Store store = opened(folder("ledger-refused") + "/store.sqlite");
  const std::int64_t round = book(store, {{"Ines", {500}}});
  Diagnostics diagnostics;
  note_payment(store, {round, "Innes", LedgerKind::paid, {1}}, "", "2026-04-02", diagnostics);
  note_payment(store, {round + 1, "Ines", LedgerKind::paid, {1}}, "", "2026-04-02", diagnostics);
  cancel_entry(store, round, 1, "", "2026-04-02", diagnostics);
  cancel_entry(store, round, 2, "", "2026-04-02", diagnostics);
  book_dues(store, {"Pool", "Spring", *find_currency("EUR"), {{"Tove", {1}}}}, "", "2026-04-02", diagnostics);
  BOOST_TEST(diagnostics.in_order().size() == 5u);
  BOOST_TEST(shown(store, round).entries.size() == 1u);
  BOOST_TEST(shown(store, round).balances.size() == 1u);
}

BOOST_AUTO_TEST_CASE(the_same_again_and_too_much_back_are_warned_of) {
  Store store = opened(folder("ledger-warned") + "/store.sqlite");
  const std::int64_t round = book(store, {{"Ines", {500}}});
  Diagnostics first, again, other_day, back;
  note_payment(store, {round, "Ines", LedgerKind::paid, {250}}, "", "2026-04-02", first);
  note_payment(store, {round, "Ines", LedgerKind::paid, {250}}, "", "2026-04-02", again);
  note_payment(store, {round, "Ines", LedgerKind::paid, {250}}, "", "2026-04-03", other_day);
  note_payment(store, {round, "Ines", LedgerKind::refunded, {251}}, "", "2026-04-03", back);
  BOOST_TEST(slugs(first).empty());
  BOOST_TEST(slugs(again) == "store/paid-already ");
  BOOST_TEST(slugs(other_day).empty());
  BOOST_TEST(slugs(back) == "store/refund-exceeds ");
  BOOST_TEST(shown(store, round).balances[0].owes().minor == 1);
}

// The tables of version 4, the last without a ledger.
BOOST_AUTO_TEST_CASE(a_store_from_before_the_ledger_keeps_what_it_has) {
  const std::string path = folder("ledger-before") + "/store.sqlite";
  const std::vector<std::string> before(store_steps().begin(), store_steps().begin() + 4);
  {
    Diagnostics diagnostics;
    auto store = open_store(path, StoreUse::write, before, diagnostics);
    BOOST_TEST_REQUIRE(store.has_value());
    record_catalogs(*store, {catalog("0.65")}, "2026-04-30");
    StockChange change;
    change.part.item = catalog("0.65").items.front();
    change.part.item.packs.clear();
    change.change = 7;
    book_stock(*store, {change}, "", "2026-04-30", diagnostics);
    BOOST_TEST(!diagnostics.has_errors());
  }
  Store store = opened(path);
  BOOST_TEST(periods(store, "T1") == "2026-04-30..2026-04-30 0.65");
  BOOST_TEST(list_stock(store, false).at(0).count == 7);
  BOOST_TEST(list_rounds(store).empty());
  BOOST_TEST(book(store, {{"Ines", {500}}}) == 1);
  BOOST_TEST(fs::exists(path + ".version-4"));
}

BOOST_AUTO_TEST_SUITE_END()
