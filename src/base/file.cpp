#include "teetally/base/file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "teetally/base/words.h"

namespace teetally {
namespace {

[[noreturn]] void fail(const std::string& path, int error) {
  throw WorldFailure(fmt::format("cannot write {}: {}", quoted(path), std::strerror(error)));
}

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }
  // Closing is the last chance of some file systems to report a full disk.
  int close() {
    const int result = ::close(number_);
    number_ = -1;
    return result;
  }

 private:
  int number_;
};

// Answers 0 or the error number.
int write_all(int descriptor, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(descriptor, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

int write_and_close(const std::string& path, int flags, std::string_view text, bool flush) {
  Descriptor file(::open(path.c_str(), flags | O_WRONLY | O_CLOEXEC, 0666));
  if (file.number() < 0) return errno;
  if (const int error = write_all(file.number(), text)) return error;
  if (flush && ::fsync(file.number()) != 0) return errno;
  return file.close() == 0 ? 0 : errno;
}

void flush_folder(const std::string& path) {
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  const Descriptor descriptor(::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  // Some file systems cannot flush a folder; the file itself is already safe.
  if (descriptor.number() >= 0) ::fsync(descriptor.number());
}

// A link is followed, so that the file it names is replaced and not the link.
std::string resolved(const std::string& path) {
  std::error_code error;
  const std::filesystem::path real = std::filesystem::canonical(path, error);
  return error ? path : real.string();
}

}  // namespace

void write_file(const std::string& path, std::string_view text) {
  struct stat status {};
  const bool exists = ::stat(path.c_str(), &status) == 0;
  if (exists && !S_ISREG(status.st_mode)) {
    if (const int error = write_and_close(path, 0, text, false)) fail(path, error);
    return;
  }
  const std::string target = resolved(path);
  const std::string beside = fmt::format("{}.new-{}", target, ::getpid());
  ::unlink(beside.c_str());
  int error = write_and_close(beside, O_CREAT | O_EXCL, text, true);
  if (error == 0 && exists && ::chmod(beside.c_str(), status.st_mode & 07777) != 0) error = errno;
  if (error == 0 && ::rename(beside.c_str(), target.c_str()) != 0) error = errno;
  if (error != 0) {
    ::unlink(beside.c_str());
    fail(path, error);
  }
  flush_folder(target);
}

}  // namespace teetally
