#include "tool/interrupt.h"

#include <fmt/format.h>

#include <chrono>
#include <csignal>

namespace teetally {
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::milliseconds kOneInterrupt{200};  // one press may arrive twice: from the terminal and a wrapper

std::atomic<bool> asked{false};  // signals have no other way to say something
std::atomic<Clock::rep> first_at{0};
static_assert(std::atomic<bool>::is_always_lock_free && std::atomic<Clock::rep>::is_always_lock_free);

extern "C" void on_interrupt(int signal) {
  const Clock::rep now = Clock::now().time_since_epoch().count();  // clock_gettime, which a handler may call
  if (!asked.exchange(true)) {
    first_at = now;
    return;
  }
  if (Clock::duration(now - first_at) < kOneInterrupt) return;
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

}  // namespace

StopOnInterrupt::StopOnInterrupt(BuyLimits& limits) : limits_(limits) {
  asked = false;
  const auto before = std::signal(SIGINT, on_interrupt);
  if (before == SIG_IGN) std::signal(SIGINT, SIG_IGN);  // whoever started the program wants it so
  limits_.stop = &asked;
}

StopOnInterrupt::~StopOnInterrupt() {
  if (std::signal(SIGINT, SIG_DFL) == SIG_IGN) std::signal(SIGINT, SIG_IGN);
  limits_.stop = nullptr;
}

bool interrupted() { return asked; }

void note_stop(Session& session, const Purchase& purchase) {
  if (!interrupted() || purchase.proof.proven || purchase.outcome == Outcome::infeasible) return;
  if (purchase.outcome == Outcome::out_of_time) {
    session.diagnostics.warning("tool/stopped", {}, "stopped before any order was found");
    return;
  }
  const Money gap = purchase.proof.cost - purchase.proof.lower_bound;
  const double percent = purchase.proof.cost.minor == 0
                             ? 0
                             : 100.0 * static_cast<double>(gap.minor) / static_cast<double>(purchase.proof.cost.minor);
  session.diagnostics.warning(
      "tool/stopped", {},
      fmt::format("stopped: this is the best order found so far, at most {:.3f} % above the cheapest possible",
                  percent));
}

}  // namespace teetally
