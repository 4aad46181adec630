// Opening, versions, backups, and what stands in the way.
#include <boost/test/unit_test.hpp>
#include <fstream>

#include "store/open_store.h"
#include "store/sqlite.h"
#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

std::string slug_of(const std::string& path, StoreUse use) {
  Diagnostics diagnostics;
  return open_store(path, use, diagnostics) ? "" : diagnostics.in_order().at(0).slug;
}

std::string whole(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::string> with_another_step() {
  std::vector<std::string> steps = store_steps();
  steps.push_back("ALTER TABLE snapshot ADD COLUMN remark TEXT");
  return steps;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(opening)

BOOST_AUTO_TEST_CASE(a_store_is_made_with_its_folder_and_read_again) {
  const std::string path = folder("made") + "/a folder?#%/of it/store.sqlite";
  BOOST_TEST(slug_of(path, StoreUse::read) == "store/no-store");
  Store made = opened(path);
  record_catalogs(made, {catalog("0.65")}, "2026-04-30");
  BOOST_TEST(fs::exists(path));
  BOOST_TEST(periods(opened(path, StoreUse::read), "T1") == "2026-04-30..2026-04-30 0.65");
}

BOOST_AUTO_TEST_CASE(tables_are_strict_and_references_hold) {
  Store store = opened(folder("strict") + "/store.sqlite");
  Database& database = store.database();
  BOOST_TEST(database.number("SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND "
                             "strict = 0 AND name NOT LIKE 'sqlite%'") == 0);
  BOOST_TEST(database.number("PRAGMA foreign_keys") == 1);
  BOOST_CHECK_THROW(database.run("INSERT INTO recording VALUES (1, 99, 'x', '2026-01-01', '2026-01-01')"),
                    WorldFailure);
}

BOOST_AUTO_TEST_CASE(an_older_store_is_copied_and_then_brought_up_to_date) {
  const std::string path = folder("older-version") + "/store.sqlite";
  {
    Store store = opened(path);
    record_catalogs(store, {catalog("0.65")}, "2026-04-30");
  }
  const auto newest = static_cast<std::int64_t>(store_steps().size());
  Diagnostics diagnostics;
  {
    const auto store = open_store(path, StoreUse::read, with_another_step(), diagnostics);
    BOOST_TEST_REQUIRE(store.has_value());
    BOOST_TEST(store->database().number("PRAGMA user_version") == newest + 1);
    BOOST_TEST(store->database().number("SELECT count(remark) FROM snapshot") == 0);
    BOOST_TEST(periods(*store, "T1") == "2026-04-30..2026-04-30 0.65");
  }
  const std::string copy = path + ".version-" + std::to_string(newest);
  BOOST_TEST(periods(opened(copy, StoreUse::read), "T1") == "2026-04-30..2026-04-30 0.65");
  // The program of before refuses the newer file and leaves it as it is.
  const std::string before = whole(path);
  BOOST_TEST(slug_of(path, StoreUse::write) == "store/newer");
  BOOST_TEST(slug_of(path, StoreUse::read) == "store/newer");
  BOOST_TEST((whole(path) == before));
}

BOOST_AUTO_TEST_CASE(a_step_that_fails_leaves_the_older_store) {
  const std::string path = folder("failing-step") + "/store.sqlite";
  { opened(path); }
  std::vector<std::string> steps = with_another_step();
  steps.emplace_back("CREATE TABLE half (a INTEGER) STRICT; SELECT no_such_function()");
  Diagnostics diagnostics;
  BOOST_CHECK_THROW(open_store(path, StoreUse::write, steps, diagnostics), WorldFailure);
  Store store = opened(path);
  BOOST_TEST(store.database().number("SELECT count(*) FROM sqlite_schema WHERE name = 'half'") == 0);
}

BOOST_AUTO_TEST_CASE(what_is_no_store_is_left_alone) {
  const std::string place = folder("no-store");
  std::ofstream(place + "/notes.txt") << "only some words, more than sixteen of them in letters";
  { Database(place + "/other.sqlite", Database::Access::write).run("CREATE TABLE theirs (a)"); }
  for (const std::string name : {"/notes.txt", "/other.sqlite", ""}) {
    const std::string before = name.empty() ? "" : whole(place + name);
    BOOST_TEST(slug_of(place + name, StoreUse::write) == "store/not-a-store", name);
    if (!name.empty()) BOOST_TEST((whole(place + name) == before), name);
  }
}

BOOST_AUTO_TEST_CASE(a_damaged_store_is_a_failure_of_the_world) {
  const std::string path = folder("damaged") + "/store.sqlite";
  {
    Store store = opened(path);
    record_catalogs(store, {catalog("0.65")}, "2026-04-30");
  }
  std::fstream(path, std::ios::in | std::ios::out | std::ios::binary).seekp(100).write("garbage garbage garbage", 23);
  BOOST_CHECK_THROW(opened(path), WorldFailure);
}

BOOST_AUTO_TEST_CASE(a_backup_is_a_store_of_its_own) {
  const std::string place = folder("backup");
  Store store = opened(place + "/store.sqlite");
  record_catalogs(store, {catalog("0.65")}, "2026-04-30");
  back_up(store, place + "/copy.sqlite");
  record_catalogs(store, {catalog("0.70")}, "2026-05-01");
  BOOST_TEST(periods(opened(place + "/copy.sqlite", StoreUse::read), "T1") == "2026-04-30..2026-04-30 0.65");
  back_up(store, place + "/copy.sqlite");
  BOOST_TEST(periods(opened(place + "/copy.sqlite", StoreUse::read), "T1") == periods(store, "T1"));
  BOOST_CHECK_THROW(back_up(store, place + "/no such folder/copy.sqlite"), WorldFailure);
  BOOST_TEST(!fs::exists(place + "/copy.sqlite.part"));
}

BOOST_AUTO_TEST_SUITE_END()
