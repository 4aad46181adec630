// Ctrl-C while the program searches, with a real signal; and what it shows on a terminal meanwhile.
#include <fcntl.h>
#include <pty.h>
#include <sys/wait.h>
#include <unistd.h>

#include <boost/test/unit_test.hpp>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "places.h"

namespace {

using namespace std::chrono_literals;

// The program at work: its standard error is a pipe or a terminal, its standard output goes nowhere.
struct Running {
  pid_t pid = -1;
  int errors = -1;
};

Running started(const std::vector<std::string>& words, bool on_terminal) {
  int ends[2] = {-1, -1};
  if (on_terminal) {
    BOOST_TEST_REQUIRE(openpty(&ends[0], &ends[1], nullptr, nullptr, nullptr) == 0);
  } else {
    BOOST_TEST_REQUIRE(pipe(ends) == 0);
  }
  std::vector<char*> arguments{const_cast<char*>(TEETALLY_PROGRAM)};
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const pid_t pid = fork();
  BOOST_TEST_REQUIRE(pid >= 0);
  if (pid == 0) {
    const int nowhere = open("/dev/null", O_WRONLY);
    dup2(nowhere, STDOUT_FILENO);
    dup2(ends[1], STDERR_FILENO);
    close(ends[0]);
    std::signal(SIGINT, SIG_DFL);
    setenv("TERM", "xterm", 1);
    setenv("XDG_DATA_HOME", TEETALLY_BUILD_DIR "/tests/scratch/interrupt", 1);
    if (chdir(TEETALLY_SOURCE_DIR) != 0) _exit(99);
    execv(TEETALLY_PROGRAM, arguments.data());
    _exit(99);
  }
  close(ends[1]);
  return {pid, ends[0]};
}

std::string text_of(const Running& running) {
  std::string text;
  char block[4096];
  for (ssize_t got = 0; (got = read(running.errors, block, sizeof block)) > 0;) {
    text.append(block, static_cast<std::size_t>(got));
  }
  close(running.errors);
  return text;
}

// Whether SIGINT is in a mask of the program's status: caught (SigCgt), waiting to be delivered (ShdPnd); proc(5).
bool signals_of(pid_t pid, const std::string& mask) {
  std::ifstream status("/proc/" + std::to_string(pid) + "/status");
  for (std::string line; std::getline(status, line);) {
    if (line.rfind(mask, 0) == 0) {
      return (std::stoull(line.substr(mask.size()), nullptr, 16) >> (SIGINT - 1) & 1U) != 0;
    }
  }
  return false;
}

void wait_until_it_listens(pid_t pid) {
  for (int i = 0; i < 6000 && !signals_of(pid, "SigCgt:"); ++i) std::this_thread::sleep_for(5ms);
}

std::string scratch() {
  const std::string folder = std::string(TEETALLY_BUILD_DIR) + "/tests/scratch/interrupt";
  std::filesystem::create_directories(folder + "/shops");
  return folder;
}

// Sixty needs and eight shops with a discount and free shipping just out of reach: minutes of search.
std::vector<std::string> long_search() {
  constexpr int kNeeds = 60;
  std::mt19937 dice(4);
  const auto roll = [&](int low, int high) {
    return std::to_string(std::uniform_int_distribution<int>(low, high)(dice));
  };
  const std::string folder = scratch();
  std::ofstream parts(folder + "/parts.yaml");
  parts << "teetally: parts list 1\nname: Many parts\nparts:\n";
  for (int n = 0; n < kNeeds; ++n) parts << "  - {kind: other, name: part " << n << ", count: " << roll(3, 40) << "}\n";
  for (int s = 0; s < 8; ++s) {
    std::ofstream shop(folder + "/shops/shop" + std::to_string(s) + ".yaml");
    shop << "teetally: catalog 1\nsupplier: {id: shop" << s << ", name: Shop, notice: invented}\ncurrency: USD\n"
         << "ordering: {shipping: [{from: 0, fee: " << roll(8, 20) << ".00}, {from: " << roll(300, 900)
         << ".00, fee: 0}], discounts: [{from: " << roll(300, 700) << ".00, percent: 7 %}]}\nitems:\n";
    for (int n = 0; n < kNeeds; ++n) {
      shop << "  - {sku: S" << n << ", name: Part " << n << ", part: {kind: other, name: part " << n
           << "}, packs: [{count: 1, price: " << roll(1, 2) << "." << roll(10, 99) << "}, {sku: S" << n
           << "-7, count: 7, price: " << roll(5, 12) << "." << roll(10, 99) << "}]}\n";
    }
  }
  return {"buy", folder + "/parts.yaml", "--catalogs", folder + "/shops", "--engine", "cbc", "--seconds", "600",
          "-o",  folder + "/order.txt"};
}

int ended(pid_t pid) {
  int status = 0;
  waitpid(pid, &status, 0);
  return status;
}

// What the program said, and its end, when it is interrupted so long after it began to listen.
struct End {
  std::string said;
  int status = 0;
};
End interrupted(const Running& running, std::chrono::milliseconds after) {
  wait_until_it_listens(running.pid);
  std::this_thread::sleep_for(after);
  kill(running.pid, SIGINT);
  End end;
  end.said = text_of(running);
  end.status = ended(running.pid);
  return end;
}

// The same, as soon as its terminal shows these words.
End interrupted_at(const Running& running, const std::string& words) {
  End end;
  char block[4096];
  for (ssize_t got = 0; end.said.find(words) == std::string::npos;) {
    if ((got = read(running.errors, block, sizeof block)) <= 0) break;
    end.said.append(block, static_cast<std::size_t>(got));
  }
  kill(running.pid, SIGINT);
  end.said += text_of(running);
  end.status = ended(running.pid);
  return end;
}

// Six plots that differ, each of sixty needs.
std::vector<std::string> long_pool() {
  long_search();  // its parts and shops
  const std::string folder = scratch();
  std::ofstream pool(folder + "/six.yaml");
  pool << "teetally: pool 1\nname: Six plots\ndesigns: {parts: parts.yaml}\nplots:\n";
  for (int p = 0; p < 6; ++p) {
    pool << "  - {plot: " << p << ", design: parts, has: [{kind: other, name: part " << p << ", count: 1}]}\n";
  }
  return {"pool", folder + "/six.yaml", "--catalogs", folder + "/shops", "--engine", "cbc", "--seconds", "4",
          "-o",   folder + "/six.txt"};
}

std::string six_plots() {
  std::ifstream file(scratch() + "/six.txt");
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace

BOOST_AUTO_TEST_SUITE(interrupt)

BOOST_AUTO_TEST_CASE(the_first_one_ends_the_search_with_the_best_so_far) {
  const auto [said, status] = interrupted(started(long_search(), false), 3s);
  BOOST_TEST(WIFEXITED(status));
  BOOST_TEST(WEXITSTATUS(status) == 0);
  BOOST_TEST(said.find("stopped: this is the best order found so far, at most ") != std::string::npos, said);
  BOOST_TEST(said.find("[tool/stopped]") != std::string::npos, said);
  BOOST_TEST(said.find('\r') == std::string::npos, said);
  std::ifstream order(scratch() + "/order.txt");
  const std::string whole{std::istreambuf_iterator<char>(order), {}};
  BOOST_TEST(whole.find("Not proven cheapest") != std::string::npos, whole);
}

BOOST_AUTO_TEST_CASE(the_second_one_ends_the_program_and_leaves_nothing_half_written) {
  const std::vector<std::string> words = long_search();
  std::filesystem::remove(scratch() + "/order.txt");
  const Running running = started(words, false);
  wait_until_it_listens(running.pid);
  std::this_thread::sleep_for(500ms);
  kill(running.pid, SIGINT);
  for (int i = 0; i < 100'000 && signals_of(running.pid, "ShdPnd:"); ++i) {
  }
  kill(running.pid, SIGSTOP);  // as soon as the first one has arrived, so that it cannot end by itself meanwhile
  std::this_thread::sleep_for(300ms);
  kill(running.pid, SIGINT);
  kill(running.pid, SIGCONT);
  text_of(running);
  const int status = ended(running.pid);
  BOOST_TEST(WIFSIGNALED(status));
  BOOST_TEST(WTERMSIG(status) == SIGINT);
  for (const auto& entry : std::filesystem::directory_iterator(scratch())) {
    BOOST_TEST(entry.path().filename().string().rfind("order.txt", 0) != 0, entry.path().string());
  }
}

// What an interrupted search found is no order to owe money for.
BOOST_AUTO_TEST_CASE(a_stopped_pool_books_nothing) {
  long_search();  // its parts and shops
  const std::string folder = scratch();
  std::filesystem::remove(folder + "/round.sqlite");
  std::ofstream(folder + "/pool.yaml") << "teetally: pool 1\nname: One plot\ndesigns: {parts: parts.yaml}\nplots:\n"
                                          "  - {plot: 1, member: Ines, design: parts}\n";
  std::ofstream(folder + "/round.yaml") << "teetally: round 1\nname: Spring\nstate: frozen\ntotal: 1.00\n";
  const auto [said, status] = interrupted(
      started({"pool", folder + "/pool.yaml", "--catalogs", folder + "/shops", "--engine", "cbc", "--seconds", "600",
               "--round", folder + "/round.yaml", "--book", "--store", folder + "/round.sqlite"},
              false),
      3s);
  BOOST_TEST(WIFEXITED(status));
  BOOST_TEST(WEXITSTATUS(status) == 2);
  BOOST_TEST(said.find("[tool/stopped]") != std::string::npos, said);
  BOOST_TEST(!std::filesystem::exists(folder + "/round.sqlite"));
}

BOOST_AUTO_TEST_CASE(a_pool_stopped_while_it_is_read_still_answers) {
  const std::vector<std::string> words = long_pool();
  std::filesystem::remove(scratch() + "/six.txt");
  const auto [said, status] = interrupted(started(words, false), 0ms);
  BOOST_TEST(WIFEXITED(status));
  BOOST_TEST(WEXITSTATUS(status) == 0);
  BOOST_TEST(said.find("stopped: this is the best order found so far, at most ") != std::string::npos, said);
  BOOST_TEST(said.find("at most 100.000 %") == std::string::npos, said);
  BOOST_TEST(six_plots().find("Who pays what") != std::string::npos, six_plots());
}

BOOST_AUTO_TEST_CASE(a_pool_stopped_while_plots_are_bought_alone_keeps_its_order) {
  const std::vector<std::string> words = long_pool();
  std::filesystem::remove(scratch() + "/six.txt");
  const auto [said, status] = interrupted_at(started(words, true), "buying for each plot alone");
  BOOST_TEST(WIFEXITED(status));
  BOOST_TEST(WEXITSTATUS(status) == 0);
  BOOST_TEST(said.find("looking for the cheapest order") != std::string::npos, said);
  BOOST_TEST(six_plots().find("Who pays what") != std::string::npos, six_plots());
}

BOOST_AUTO_TEST_CASE(a_terminal_shows_what_is_being_done_and_is_left_clean) {
  const std::string said = interrupted(started(long_search(), true), 2500ms).said;
  BOOST_TEST(said.find(" s, looking for the cheapest order (Ctrl-C: stop with the best so far)") != std::string::npos,
             said);
  const std::size_t last = said.rfind("\r\x1b[K");
  BOOST_TEST_REQUIRE(last != std::string::npos, said);
  BOOST_TEST(said.find("looking for", last) == std::string::npos, said);
}

BOOST_AUTO_TEST_SUITE_END()
