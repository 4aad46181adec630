#pragma once
// For libraries that can only write to a path: the bytes they wrote, and no file left behind.
#include <functional>
#include <string>

namespace teetally {

// `write` is given the path of a file that does not exist yet, in a folder that nobody else may read. Throws
// WorldFailure when there is no room for temporary files or nothing was written.
std::string bytes_written_by(const std::function<void(const std::string& path)>& write);

}  // namespace teetally
