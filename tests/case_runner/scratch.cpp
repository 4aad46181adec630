#include "case_runner/scratch.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <thread>
#include <vector>

namespace fs = std::filesystem;

namespace cases {
namespace {

constexpr std::chrono::seconds kLongest{300};

// Streams lie beside the scratch folder, so that a command never sees them.
fs::path beside(const Workshop& shop, const std::string& ending) { return shop.folder.string() + ending; }

std::vector<std::string> environment(const Workshop& shop) {
  std::vector<std::string> variables = {"PATH=" + shop.program.parent_path().string() + ":/usr/bin:/bin",
                                        "HOME=" + shop.folder.string(), "TERM=dumb"};
  for (const char* name : {"ASAN_OPTIONS", "UBSAN_OPTIONS", "LSAN_OPTIONS"}) {
    if (const char* value = std::getenv(name)) variables.push_back(std::string(name) + "=" + value);
  }
  return variables;
}

void redirect(const std::string& path, int flags, int onto) {
  const int file = open(path.c_str(), flags, 0644);
  if (file < 0 || dup2(file, onto) < 0) _exit(125);
  close(file);
}

[[noreturn]] void become(const Workshop& shop, const Step& step) {
  setpgid(0, 0);
  redirect(beside(shop, ".in"), O_RDONLY, STDIN_FILENO);
  redirect(beside(shop, ".out"), O_WRONLY | O_CREAT | O_TRUNC, STDOUT_FILENO);
  redirect(beside(shop, ".err"), O_WRONLY | O_CREAT | O_TRUNC, STDERR_FILENO);
  if (chdir(shop.folder.c_str()) != 0) _exit(125);
  std::vector<std::string> variables = environment(shop);
  std::vector<char*> pointers;
  for (std::string& variable : variables) pointers.push_back(variable.data());
  pointers.push_back(nullptr);
  execle("/bin/sh", "sh", "-c", step.command.c_str(), static_cast<char*>(nullptr), pointers.data());
  _exit(125);
}

// Waits for the child; a negative answer means it had to be killed.
int wait_for(pid_t child) {
  const auto deadline = std::chrono::steady_clock::now() + kLongest;
  int status = 0;
  for (auto pause = std::chrono::microseconds(200); waitpid(child, &status, WNOHANG) == 0;) {
    if (std::chrono::steady_clock::now() > deadline) {
      kill(-child, SIGKILL);
      waitpid(child, &status, 0);
      return -1;
    }
    std::this_thread::sleep_for(pause);
    if (pause < std::chrono::milliseconds(20)) pause *= 2;
  }
  return status;
}

}  // namespace

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) throw CaseError("cannot read " + path.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

void write_file(const fs::path& path, const std::string& bytes) {
  if (path.has_parent_path()) fs::create_directories(path.parent_path());
  std::ofstream out(path, std::ios::binary);
  out << bytes;
  if (!out.flush()) throw CaseError("cannot write " + path.string());
}

Snapshot snapshot(const fs::path& folder) {
  Snapshot files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) files[fs::relative(entry.path(), folder).string()] = read_file(entry.path());
  }
  return files;
}

void empty_folder(const Workshop& shop) {
  fs::remove_all(shop.folder);
  fs::create_directories(shop.folder);
}

void place_inputs(const Workshop& shop, const Step& step) {
  for (const InputFile& file : step.inputs) {
    const fs::path to = shop.folder / file.name;
    if (file.from.empty()) {
      write_file(to, file.text.bytes);
      continue;
    }
    const fs::path from = shop.tree / file.from;
    if (!fs::exists(from)) throw CaseError("'use " + file.from + "': no such file or folder in the tree");
    fs::create_directories(to.parent_path());
    fs::copy(from, to, fs::copy_options::recursive | fs::copy_options::overwrite_existing);
  }
}

Ran run_command(const Workshop& shop, const Step& step) {
  write_file(beside(shop, ".in"), step.input.bytes);
  const pid_t child = fork();
  if (child < 0) throw CaseError("cannot start a process");
  if (child == 0) become(shop, step);
  const int status = wait_for(child);
  Ran ran;
  ran.out = read_file(beside(shop, ".out"));
  ran.err = read_file(beside(shop, ".err"));
  if (status < 0) {
    ran.broke = "still running after " + std::to_string(kLongest.count()) + " s";
  } else if (WIFSIGNALED(status)) {
    ran.broke = "killed by signal " + std::to_string(WTERMSIG(status));
  } else {
    ran.exit_code = WEXITSTATUS(status);
    // The shell tells of a killed command by 128 and the signal.
    if (ran.exit_code > 128) ran.broke = "killed by signal " + std::to_string(ran.exit_code - 128);
  }
  return ran;
}

}  // namespace cases
