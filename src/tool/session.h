#pragma once
// One run of one command: what was asked, what went wrong so far, and how long each stage took. A stage is
// timed by `stage`; after it the command asks `must_stop`, which ends the pipeline on errors or at the stage
// whose value is to be dumped.
#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "tool/exit_code.h"
#include "tool/request.h"

namespace teetally {

struct StageTime {
  std::string name;
  double milliseconds = 0;
  std::string size;  // "24 needs"
};

// What a command hands back: how it ends and what goes to standard output or the output file.
struct Answer {
  ExitCode code = ExitCode::done;
  std::string output;
};

class Progress;

struct Session {
  Request request;
  Diagnostics diagnostics;
  std::vector<StageTime> times;
  std::optional<Json> dumped;
  int width = 80;                // columns of the terminal
  Progress* progress = nullptr;  // told of each stage
};

// Runs `work`, notes its time under `name`, answers what it answers.
void begin_stage(const Session& session, const std::string& name);
template <typename Work>
auto timed(Session& session, std::string name, Work work) {
  begin_stage(session, name);
  const auto start = std::chrono::steady_clock::now();
  auto value = work();
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  session.times.push_back({std::move(name), took.count(), {}});
  return value;
}
void note_size(Session& session, std::string size);  // of the stage timed last

// True when errors are present, or when `stage` is the one to dump (then its JSON is kept in `dumped`).
bool must_stop(Session& session, std::string_view stage, const std::function<Json()>& as_json);

// How a pipeline that stopped ends: the dump, or the errors.
Answer stopped(const Session& session);

// The path of a file that another file names: from that file's folder, unless it is absolute.
std::string beside(const std::string& path, const std::string& named);

// The text of a file, or of standard input for "-"; errors are diagnostics and answer no source.
Source read_input(const std::string& path, Diagnostics& diagnostics);

}  // namespace teetally
