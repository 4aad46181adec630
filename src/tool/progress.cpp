#include "tool/progress.h"

#include <fmt/format.h>

#include <chrono>
#include <map>

#include "tool/terminal.h"

namespace teetally {
namespace {

using Clock = std::chrono::steady_clock;
constexpr auto kMoment = std::chrono::seconds(1);

std::string words_for(const std::string& stage) {
  static const std::map<std::string, std::string> kWords = {
      {"catalog", "reading catalogs"},
      {"expansion", "working out the plots"},
      {"pooling", "putting the needs together"},
      {"purchase", "looking for the cheapest order (Ctrl-C: stop with the best so far)"},
      {"alone", "buying for each plot alone"},
      {"shares", "sharing out"},
      {"compare", "comparing ways to buy"},
  };
  const auto found = kWords.find(stage);
  return found == kWords.end() ? "working" : found->second;
}

}  // namespace

Progress::Progress() : words_("working") {
  if (terminal_on_stderr()) thread_ = std::thread([this] { show(); });
}

Progress::~Progress() { end(); }

void Progress::stage(const std::string& name) {
  const std::lock_guard<std::mutex> lock(changing_);
  words_ = words_for(name);
}

void Progress::end() {
  if (!thread_.joinable()) return;
  {
    const std::lock_guard<std::mutex> lock(changing_);
    ended_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void Progress::show() {
  const Clock::time_point start = Clock::now();
  const auto width = static_cast<std::size_t>(terminal_width() - 1);
  bool shown = false;
  std::unique_lock<std::mutex> lock(changing_);
  while (!changed_.wait_for(lock, kMoment, [this] { return ended_; })) {
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(Clock::now() - start).count();
    print_message("\r" + fmt::format("{} s, {}", seconds, words_).substr(0, width) + "\x1b[K");
    shown = true;
  }
  if (shown) print_message("\r\x1b[K");
}

}  // namespace teetally
