// Prices are kept by the day, and a history shows each once.
#include <boost/test/unit_test.hpp>

#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

const std::string kPunch = "  - {sku: P1, name: Punch, part: {kind: punch}, price: 3.00}\n";

}  // namespace

BOOST_AUTO_TEST_SUITE(prices)

// FIPS 180-4; digests of its two first examples as published by NIST ("SHA-256", Cryptographic Standards and
// Guidelines: Examples with Intermediate Values), and of nothing.
BOOST_AUTO_TEST_CASE(hashes_are_sha_256) {
  BOOST_TEST(content_hash("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  BOOST_TEST(content_hash("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
             "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  BOOST_TEST(content_hash("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

BOOST_AUTO_TEST_CASE(a_price_that_stays_is_one_period) {
  Store store = opened(folder("stays") + "/store.sqlite");
  BOOST_TEST(record_catalogs(store, {catalog("0.65")}, "2026-04-30")[0].changed);
  const Recording again = record_catalogs(store, {catalog("0.65")}, "2026-05-02")[0];
  BOOST_TEST(!again.changed);
  BOOST_TEST(again.since == "2026-04-30");
  // Another file with the same price of this sku.
  BOOST_TEST(record_catalogs(store, {catalog("0.65", kPunch)}, "2026-05-09")[0].changed);
  BOOST_TEST(periods(store, "T1") == "2026-04-30..2026-05-09 0.65");
  BOOST_TEST(periods(store, "P1") == "2026-05-09..2026-05-09 3.00");
}

BOOST_AUTO_TEST_CASE(prices_go_up_and_away_and_come_back) {
  Store store = opened(folder("back") + "/store.sqlite");
  record_catalogs(store, {catalog("0.65", kPunch)}, "2026-04-30");
  record_catalogs(store, {catalog("0.70")}, "2026-05-01");
  const Recording third = record_catalogs(store, {catalog("0.65", kPunch)}, "2026-05-02")[0];
  BOOST_TEST(third.before.value_or("") == "2026-05-01");
  BOOST_TEST(periods(store, "T1") ==
             "2026-04-30..2026-04-30 0.65; 2026-05-01..2026-05-01 0.70; 2026-05-02..2026-05-02 0.65");
  BOOST_TEST(periods(store, "P1") ==
             "2026-04-30..2026-04-30 3.00; 2026-05-01..2026-05-01 -; 2026-05-02..2026-05-02 3.00");
}

BOOST_AUTO_TEST_CASE(an_older_list_may_be_recorded_later) {
  Store store = opened(folder("older") + "/store.sqlite");
  record_catalogs(store, {catalog("0.70")}, "2026-05-01");
  record_catalogs(store, {catalog("0.65")}, "2025-05-01");
  BOOST_TEST(periods(store, "T1") == "2025-05-01..2025-05-01 0.65; 2026-05-01..2026-05-01 0.70");
}

BOOST_AUTO_TEST_CASE(a_list_recorded_for_an_earlier_day_again_ends_no_period) {
  Store store = opened(folder("between") + "/store.sqlite");
  for (const char* day : {"2026-05-01", "2026-05-20", "2026-05-10"}) record_catalogs(store, {catalog("0.70")}, day);
  BOOST_TEST(periods(store, "T1") == "2026-05-01..2026-05-20 0.70");
}

BOOST_AUTO_TEST_CASE(other_prices_within_a_period_part_it) {
  Store store = opened(folder("within") + "/store.sqlite");
  for (const char* day : {"2026-05-01", "2026-05-20"}) record_catalogs(store, {catalog("0.70")}, day);
  record_catalogs(store, {catalog("0.65")}, "2026-05-10");
  BOOST_TEST(periods(store, "T1") ==
             "2026-05-01..2026-05-10 0.70; 2026-05-10..2026-05-10 0.65; 2026-05-20..2026-05-20 0.70");
}

BOOST_AUTO_TEST_CASE(an_unknown_sku_names_the_nearest) {
  Store store = opened(folder("unknown") + "/store.sqlite");
  record_catalogs(store, {catalog("0.70")}, "2026-05-01");
  Diagnostics diagnostics;
  BOOST_TEST(price_history(store, "T2", diagnostics).empty());
  BOOST_TEST(diagnostics.in_order().at(0).slug == "store/unknown-sku");
  BOOST_TEST(diagnostics.in_order().at(0).help == "did you mean 'T1'?");
}

BOOST_AUTO_TEST_SUITE_END()
