#pragma once
// Processes that write to a store, and are killed while they do.
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <random>
#include <thread>

#include "store/sqlite.h"
#include "unit/store/scratch_store.h"

namespace scratch {

// How often a process is killed; a longer run: STORE_KILLS=5000 unit_store --run_test='hard_times,killed'
inline int kills() {
  const char* stated = std::getenv("STORE_KILLS");
  return stated == nullptr ? std::max(20, 100 / TEETALLY_EVERY) : std::atoi(stated);
}

// A child process that runs `work`; it never comes back into the test.
template <typename Work>
pid_t child(Work work) {
  const pid_t pid = fork();
  if (pid != 0) return pid;
  int code = 0;
  try {
    work();
  } catch (const WorldFailure&) {
    code = 4;
  } catch (...) {
    code = 1;
  }
  _exit(code);
}

inline int code_of(pid_t pid) {
  int status = 0;
  waitpid(pid, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

inline void is_sound(Database& database) {
  BOOST_TEST(database.number("SELECT count(*) FROM pragma_integrity_check WHERE integrity_check <> 'ok'") == 0);
  BOOST_TEST(database.number("SELECT count(*) FROM pragma_foreign_key_check") == 0);
}

// Kills a process that does `work` somewhere between its start and a little after it would have been done.
template <typename Work>
class Killer {
 public:
  explicit Killer(Work work) : work_(work) {
    const auto start = std::chrono::steady_clock::now();
    BOOST_TEST(code_of(child(work_)) == 0);
    whole_ = std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - start);
  }
  void run() {
    const pid_t pid = child(work_);
    std::this_thread::sleep_for(whole_ * static_cast<int>(dice_() % 130) / 100);
    kill(pid, SIGKILL);
    code_of(pid);
  }

 private:
  Work work_;
  std::chrono::microseconds whole_{};  // what it takes
  std::mt19937 dice_{20260430};
};

// A process writes number after number and tells of each once it is kept, until it is killed; again and again.
// `write_one(store, n)` keeps the n-th, `whole_ones(store)` says how many are kept and fails the test on half a one.
template <typename Write, typename Whole>
void kill_while(const std::string& path, Write write_one, Whole whole_ones) {
  std::mt19937 dice(20260430);
  std::int64_t told = 0, in_all = 0;
  unsigned longest = 30'000;  // microseconds, more on a busy machine
  for (int round = 0; round < kills(); ++round) {
    if (round % 10 == 9) fs::remove(path);  // so that making a store is interrupted, too
    if (round % 10 == 9) told = 0;
    const std::int64_t before = told;
    int pipe_ends[2];
    BOOST_TEST_REQUIRE(pipe(pipe_ends) == 0);
    const pid_t pid = child([&] {
      close(pipe_ends[0]);
      Store store = opened(path);
      for (std::int64_t i = whole_ones(store) + 1;; ++i) {
        write_one(store, i);
        if (write(pipe_ends[1], &i, sizeof i) != sizeof i) return;
      }
    });
    close(pipe_ends[1]);
    std::this_thread::sleep_for(std::chrono::microseconds(dice() % longest));
    kill(pid, SIGKILL);
    code_of(pid);
    std::int64_t number = 0;
    while (read(pipe_ends[0], &number, sizeof number) == sizeof number) told = number;
    close(pipe_ends[0]);
    if (!fs::exists(path)) continue;
    Store store = opened(path);
    is_sound(store.database());
    const std::int64_t kept = whole_ones(store);
    BOOST_TEST(kept >= told, "told of " << told << ", kept " << kept);
    BOOST_TEST(kept <= told + 1);
    in_all += kept - before;
    longest = kept == before ? std::min(longest * 2, 500'000u) : std::max(longest / 2, 30'000u);
    told = kept;
  }
  BOOST_TEST_MESSAGE(kills() << " kills, " << in_all << " kept");
  BOOST_WARN(in_all > kills() / 10);  // else the kills came before there was anything to lose, on a slow machine
}

}  // namespace scratch
