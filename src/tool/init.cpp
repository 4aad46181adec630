#include <filesystem>

#include "tool/commands.h"

namespace teetally {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kStarter = "starter/";

bool is_usable(const fs::path& folder, Diagnostics& diagnostics) {
  std::error_code unreadable;
  const fs::file_status status = fs::status(folder, unreadable);
  if (!fs::exists(status)) return true;
  if (!fs::is_directory(status)) {
    diagnostics.error("tool/folder-in-use", {}, quoted(folder.string()) + " is a file; a new folder is expected");
    return false;
  }
  if (fs::is_empty(folder, unreadable)) return true;
  if (unreadable) throw WorldFailure(folder.string() + ": " + unreadable.message());
  diagnostics
      .error("tool/folder-in-use", {}, quoted(folder.string()) + " has files in it; a new or empty folder is expected")
      .help = "name another folder: nothing is ever overwritten";
  return false;
}

void make_folder(const fs::path& folder) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) throw WorldFailure(folder.string() + ": " + failed.message());
}

}  // namespace

Answer run_init(Session& session) {
  const fs::path folder = session.request.arguments[0];
  if (folder.empty()) {
    session.diagnostics.error("tool/missing-argument", {}, "the folder's name is empty").help =
        "usage: teetally init FOLDER";
    return stopped(session);
  }
  if (!is_usable(folder, session.diagnostics)) return stopped(session);
  std::string out = "Made " + printable(folder.string()) + " with\n";
  for (const std::string_view name : shipped_file_names()) {
    if (name.substr(0, kStarter.size()) != kStarter) continue;
    const fs::path file = folder / name.substr(kStarter.size());
    make_folder(file.parent_path());
    write_file(file.string(), shipped_file(name));
    out += "  " + std::string(name.substr(kStarter.size())) + "\n";
  }
  return {ExitCode::done,
          out + next_steps({"cd " + folder.string(), "edit garden.yaml", "teetally check garden.yaml"})};
}

}  // namespace teetally
