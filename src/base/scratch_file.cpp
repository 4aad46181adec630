#include "teetally/base/scratch_file.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "teetally/base/file.h"

namespace teetally {
namespace {

namespace fs = std::filesystem;

// A folder of its own that goes when this goes.
class ScratchFolder {
 public:
  ScratchFolder() : path_((fs::temp_directory_path() / ("teetally-" + std::string(6, 'X'))).string()) {
    if (mkdtemp(path_.data()) == nullptr) throw WorldFailure(path_ + ": no folder for temporary files can be made");
  }
  ~ScratchFolder() {
    std::error_code left_behind;  // nothing can be done about it here
    fs::remove_all(path_, left_behind);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  std::string file(const std::string& name) const { return (fs::path(path_) / name).string(); }

 private:
  std::string path_;
};

}  // namespace

std::string bytes_written_by(const std::function<void(const std::string& path)>& write) {
  const ScratchFolder folder;
  const std::string path = folder.file("file");
  write(path);
  std::ifstream file(path, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  if (bytes.empty()) throw WorldFailure(path + ": a temporary file could not be written");
  return bytes;
}

}  // namespace teetally
