#include "tool/session.h"

#include <cstdio>
#include <filesystem>

#include "tool/progress.h"

namespace teetally {
namespace {

// Reading stops a little above what any reader accepts; the reader then says that it is too much.
Source read_standard_input() {
  std::string text;
  char block[1 << 16];
  std::size_t got = 0;
  while (text.size() <= kLargestFile && (got = std::fread(block, 1, sizeof block, stdin)) > 0) text.append(block, got);
  return source_from_text("standard input", std::move(text));
}

}  // namespace

void begin_stage(const Session& session, const std::string& name) {
  if (session.progress != nullptr) session.progress->stage(name);
}

void note_size(Session& session, std::string size) { session.times.back().size = std::move(size); }

bool must_stop(Session& session, std::string_view stage, const std::function<Json()>& as_json) {
  if (session.diagnostics.has_errors()) return true;
  if (session.request.dump != stage) return false;
  session.dumped = as_json();
  return true;
}

Answer stopped(const Session& session) {
  if (session.dumped) return {ExitCode::done, to_text(*session.dumped) + "\n"};
  return {ExitCode::your_input, {}};
}

Source read_input(const std::string& path, Diagnostics& diagnostics) {
  return path == "-" ? read_standard_input() : read_source(path, diagnostics);
}

std::string beside(const std::string& path, const std::string& named) {
  if (std::filesystem::path(named).is_absolute()) return named;
  return (std::filesystem::path(path).parent_path() / named).lexically_normal().string();
}

}  // namespace teetally
