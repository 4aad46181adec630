#include <csignal>
#include <new>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "tool/run.h"
#include "tool/terminal.h"

namespace {

using teetally::ExitCode;

ExitCode failed(ExitCode code, const std::string& what) {
  teetally::print_message("teetally: " + what + "\n");
  return code;
}

ExitCode guarded(const std::vector<std::string>& words) {
  try {
    return teetally::run(words);
  } catch (const teetally::WorldFailure& e) {
    return failed(ExitCode::world_failed, e.what());
  } catch (const std::bad_alloc&) {
    return failed(ExitCode::world_failed, "out of memory");
  } catch (const std::exception& e) {
    return failed(ExitCode::our_bug, std::string("a bug in teetally: ") + e.what() +
                                         "\nPlease report it with the files and the command that led here.");
  }
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGPIPE, SIG_IGN);  // a reader that goes away is no failure of ours; writing answers EPIPE
  return static_cast<int>(guarded({argv + (argc > 0 ? 1 : 0), argv + argc}));
}
