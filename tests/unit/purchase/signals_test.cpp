// Ctrl-C belongs to the program, whatever solvers run in whatever threads.
#include <atomic>
#include <boost/test/unit_test.hpp>
#include <csignal>
#include <thread>

#include "purchase/linear/model.h"

using namespace teetally;

namespace {

extern "C" void ours(int /*signal*/) {}

bool is_ours() {
  struct sigaction now {};
  sigaction(SIGINT, nullptr, &now);
  return now.sa_handler == ours;
}

// Enough rows to take a moment: every two neighbours sum to at least ten.
LinearModel chain(int columns) {
  LinearModel model;
  for (int c = 0; c < columns; ++c) model.columns.push_back({0, 100, false, 9});
  for (int c = 0; c + 1 < columns; ++c) model.rows.push_back({10, 1e30, {{c, 1}, {c + 1, 1.0 + c % 3}}});
  return model;
}

int solve_often(int times) {
  const LinearModel model = chain(400);
  Terms goal;
  for (int c = 0; c < 400; ++c) goal.emplace_back(c, 1 + c % 7);
  int solved = 0;
  for (int i = 0; i < times; ++i) solved += solve_relaxed(model, goal).optimal ? 1 : 0;
  return solved;
}

}  // namespace

BOOST_AUTO_TEST_CASE(solvers_leave_the_interrupt_to_the_program) {
  const auto before = std::signal(SIGINT, ours);
  std::atomic<bool> done{false};
  std::atomic<int> looked{0}, taken{0};
  std::thread watch([&] {
    for (; !done; ++looked) taken += is_ours() ? 0 : 1;
  });
  std::atomic<int> solved{0};
  std::thread other([&] { solved += solve_often(40); });
  solved += solve_often(40);
  other.join();
  done = true;
  watch.join();
  BOOST_TEST(solved == 80);
  BOOST_TEST(looked > 0);
  BOOST_TEST(taken == 0);
  BOOST_TEST(is_ours());
  std::signal(SIGINT, before);
}
