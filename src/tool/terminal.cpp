#include "tool/terminal.h"

#include <sys/ioctl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>

#include "teetally/base.h"

namespace teetally {
namespace {

constexpr int kUsualWidth = 80;
constexpr int kNarrowestLine = 40;
constexpr int kWidestLine = 200;

}  // namespace

int terminal_width() {
  int width = kUsualWidth;
  winsize size{};
  const char* columns = std::getenv("COLUMNS");
  const auto stated = parse_count(columns == nullptr ? "" : columns);
  if (stated && *stated > 0) {
    width = static_cast<int>(std::min<std::int64_t>(*stated, kWidestLine));
  } else if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
    width = size.ws_col;
  }
  return std::clamp(width, kNarrowestLine, kWidestLine);
}

std::string clock_date() {
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  const auto stated = parse_count(epoch == nullptr ? "" : epoch);
  const bool is_stated = stated && *stated >= 0;
  const std::time_t now = is_stated ? static_cast<std::time_t>(*stated) : std::time(nullptr);
  std::tm day{};
  char text[16] = "";
  const bool known = (is_stated ? gmtime_r(&now, &day) : localtime_r(&now, &day)) != nullptr;
  if (known) std::strftime(text, sizeof text, "%Y-%m-%d", &day);
  return text;
}

std::string usual_store() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && data[0] == '/') return std::string(data) + "/teetally/store.sqlite";
  const char* home = std::getenv("HOME");
  if (home == nullptr || home[0] == '\0') return {};
  return std::string(home) + "/.local/share/teetally/store.sqlite";
}

void print_result(std::string_view text) {
  errno = 0;
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
  if (written || errno == EPIPE) return;
  throw WorldFailure(std::string("standard output: ") + std::strerror(errno));
}

bool terminal_on_stderr() {
  const char* kind = std::getenv("TERM");
  return isatty(STDERR_FILENO) == 1 && kind != nullptr && std::strcmp(kind, "dumb") != 0;
}

void print_message(std::string_view text) { static_cast<void>(std::fwrite(text.data(), 1, text.size(), stderr)); }

long peak_memory_kib() {
  rusage usage{};
  return getrusage(RUSAGE_SELF, &usage) == 0 ? usage.ru_maxrss : 0;
}

}  // namespace teetally
