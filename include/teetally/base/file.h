#pragma once
// The world's failures, and files written whole: a reader of the path sees the old text or the new one, never
// a part of it.
#include <stdexcept>
#include <string>
#include <string_view>

namespace teetally {

// Disk, store or solver did not do its work. Caught once, in tool/main.cpp.
struct WorldFailure : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Writes beside the file, flushes to disk and renames; throws WorldFailure with the path and the system's
// reason. A path that names something other than a regular file (a terminal, a pipe) is written directly.
void write_file(const std::string& path, std::string_view text);

}  // namespace teetally
