// The store when the world fails: killed at any moment, a full disk, several processes at once, a file that cannot
// be written. Each process here records catalogs whose two skus always have the same price, and tells of every
// recording once it is committed.
#include <sys/resource.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <csignal>

#include "store/open_store.h"
#include "store/sqlite.h"
#include "unit/store/processes.h"
#include "unit/store/scratch_store.h"

using namespace scratch;

namespace {

std::string price_of(std::int64_t cents) { return to_string(Money{cents}, Currency{"USD", 2}); }

void record_price(Store& store, std::int64_t cents) {
  const std::string price = price_of(cents);
  const std::string twin = "  - {sku: P1, name: Punch, part: {kind: punch}, price: " + price + "}\n";
  record_catalogs(store, {catalog(price, twin)}, "2026-04-30");
}

// Every number from 1 that has a recording, in the order of the recordings; fails the test on half a recording.
std::int64_t whole_recordings(Database& database) {
  database.run("BEGIN");  // one moment for all questions
  is_sound(database);
  BOOST_TEST(
      database.number("SELECT count(*) FROM snapshot WHERE (SELECT count(*) FROM price WHERE snapshot = id) <> 2 "
                      "OR (SELECT count(DISTINCT amount) FROM price WHERE snapshot = id) <> 1") == 0);
  BOOST_TEST(database.number("SELECT count(*) FROM snapshot") == database.number("SELECT count(*) FROM recording"));
  const std::int64_t recordings = database.number("SELECT count(*) FROM recording");
  database.run("COMMIT");
  return recordings;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(hard_times)

BOOST_AUTO_TEST_CASE(killed_at_any_moment_nothing_committed_is_lost) {
  const auto whole = [](Store& store) {
    const std::int64_t kept = whole_recordings(store.database());
    const std::string latest = " " + price_of(kept) + "$";
    if (kept > 0) BOOST_TEST((periods(store, "T1") + "$").find(latest) != std::string::npos);
    return kept;
  };
  kill_while(folder("killed") + "/store.sqlite", record_price, whole);
}

BOOST_AUTO_TEST_CASE(several_processes_make_a_store_at_once) {
  for (int round = 0; round < std::max(5, 40 / TEETALLY_EVERY); ++round) {
    const std::string path = folder("made-at-once") + "/store.sqlite";
    fs::remove(path);
    std::vector<pid_t> pids;
    for (int process = 0; process < 8; ++process) {
      pids.push_back(child([&] { opened(path); }));
    }
    for (const pid_t pid : pids) BOOST_TEST(code_of(pid) == 0);
    BOOST_TEST(opened(path).database().number("PRAGMA user_version") ==
               static_cast<std::int64_t>(store_steps().size()));
  }
}

BOOST_AUTO_TEST_CASE(several_processes_record_at_once) {
  const std::string path = folder("at-once") + "/store.sqlite";
  std::vector<pid_t> pids;
  for (int process = 0; process < 4; ++process) {
    pids.push_back(child([&, process] {
      for (int i = 1; i <= 10; ++i) {
        Store store = opened(path);
        record_price(store, process * 1000 + i);
      }
    }));
  }
  for (const pid_t pid : pids) BOOST_TEST(code_of(pid) == 0);
  Store store = opened(path);
  BOOST_TEST(whole_recordings(store.database()) == 40);
}

BOOST_AUTO_TEST_CASE(several_processes_bring_an_older_store_up_to_date) {
  const std::string path = folder("older-at-once") + "/store.sqlite";
  Diagnostics diagnostics;
  {
    auto store = open_store(path, StoreUse::write, {store_steps().front()}, diagnostics);
    record_price(*store, 65);
  }
  std::vector<pid_t> pids;
  for (int process = 0; process < 4; ++process) {
    pids.push_back(child([&] { BOOST_TEST(periods(opened(path), "T1") == "2026-04-30..2026-04-30 0.65"); }));
  }
  for (const pid_t pid : pids) BOOST_TEST(code_of(pid) == 0);
  Store store = opened(path);
  BOOST_TEST(whole_recordings(store.database()) == 1);
  BOOST_TEST(store.database().number("PRAGMA user_version") == static_cast<std::int64_t>(store_steps().size()));
  auto copy = open_store(path + ".version-1", StoreUse::read, {store_steps().front()}, diagnostics);
  BOOST_TEST(copy->database().number("PRAGMA user_version") == 1);
}

BOOST_AUTO_TEST_CASE(a_reader_sees_only_whole_recordings_while_another_writes) {
  const std::string path = folder("reader") + "/store.sqlite";
  { opened(path); }
  const pid_t writer = child([&] {
    Store store = opened(path);
    for (int i = 1; i <= 60; ++i) record_price(store, i);
  });
  std::int64_t before = 0;
  while (before < 60) {
    Store store = opened(path, StoreUse::read);
    const std::int64_t now = whole_recordings(store.database());
    BOOST_TEST_REQUIRE(now >= before);
    before = now;
  }
  BOOST_TEST(code_of(writer) == 0);
}

// A file may grow to 600 kB here and no further, as if the disk were full then: more than the tables take, and the log.
BOOST_AUTO_TEST_CASE(a_full_disk_is_a_failure_of_the_world_and_loses_nothing) {
  const std::string path = folder("full") + "/store.sqlite";
  int pipe_ends[2];
  BOOST_TEST_REQUIRE(pipe(pipe_ends) == 0);
  const pid_t pid = child([&] {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit least{600'000, 600'000};
    if (setrlimit(RLIMIT_FSIZE, &least) != 0) _exit(9);
    Store store = opened(path);
    for (std::int64_t i = 1; i < 100'000; ++i) {
      record_price(store, i);
      if (write(pipe_ends[1], &i, sizeof i) != sizeof i) return;
    }
  });
  close(pipe_ends[1]);
  std::int64_t told = 0, number = 0;
  while (read(pipe_ends[0], &number, sizeof number) == sizeof number) told = number;
  close(pipe_ends[0]);
  BOOST_TEST(code_of(pid) == 4);
  BOOST_TEST(told > 10);
  Store store = opened(path);
  BOOST_TEST(whole_recordings(store.database()) == told);
  record_price(store, told + 1);  // there is room again
  BOOST_TEST(whole_recordings(store.database()) == told + 1);
}

BOOST_AUTO_TEST_CASE(no_page_left_is_a_failure_of_the_world) {
  Store store = opened(folder("pages") + "/store.sqlite");
  record_price(store, 1);
  store.database().run("PRAGMA max_page_count = 1");  // no more than it has
  try {
    for (int i = 2; i < 1000; ++i) record_price(store, i);
    BOOST_ERROR("the store never was full");
  } catch (const WorldFailure& e) {
    BOOST_TEST(std::string(e.what()).find("no space is left for it") != std::string::npos, e.what());
  }
  BOOST_TEST(whole_recordings(store.database()) >= 1);
}

// Root may write anything, so it becomes somebody else first.
BOOST_AUTO_TEST_CASE(a_file_that_cannot_be_written_can_be_read) {
  const std::string place = folder("read-only");
  const std::string path = place + "/store.sqlite";
  {
    Store store = opened(path);
    record_price(store, 65);
  }
  fs::permissions(path, fs::perms::owner_read | fs::perms::group_read | fs::perms::others_read);
  for (const bool folder_too : {false, true}) {
    using fs::perms;
    const perms look = perms::owner_read | perms::owner_exec | perms::others_read | perms::others_exec;
    fs::permissions(place, folder_too ? look : perms::all);
    const auto as_anybody = [&](auto work) {
      return code_of(child([&] {
        if (geteuid() == 0 && setuid(65534) != 0) _exit(9);
        if (access(path.c_str(), R_OK) != 0) _exit(77);  // the folders above are closed to anybody: nothing to test
        work();
      }));
    };
    const int reading = as_anybody([&] {
      if (periods(opened(path, StoreUse::read), "T1") != "2026-04-30..2026-04-30 0.65") _exit(8);
    });
    if (reading == 77) continue;
    BOOST_TEST(reading == 0);
    BOOST_TEST(as_anybody([&] {
                 Store store = opened(path);
                 record_price(store, 66);
               }) == 4);
  }
  fs::permissions(place, fs::perms::all);
}

BOOST_AUTO_TEST_SUITE_END()
