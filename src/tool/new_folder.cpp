#include "tool/new_folder.h"

#include <filesystem>

namespace teetally {
namespace {

namespace fs = std::filesystem;

void make_folder(const fs::path& folder) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed) throw WorldFailure("cannot make the folder " + quoted(folder.string()) + ": " + failed.message());
}

}  // namespace

bool is_new_folder(const std::string& folder, Diagnostics& diagnostics) {
  std::error_code unreadable;
  const fs::file_status status = fs::status(folder, unreadable);
  if (!fs::exists(status)) return true;
  if (!fs::is_directory(status)) {
    diagnostics.error("tool/folder-in-use", {}, quoted(folder) + " is a file; a new folder is expected");
    return false;
  }
  if (fs::is_empty(folder, unreadable)) return true;
  if (unreadable) throw WorldFailure("cannot look into the folder " + quoted(folder) + ": " + unreadable.message());
  diagnostics.error("tool/folder-in-use", {}, quoted(folder) + " has files in it; a new or empty folder is expected")
      .help = "name another folder: nothing is ever overwritten";
  return false;
}

void write_into(const std::string& folder, const std::string& name, std::string_view text) {
  const fs::path file = fs::path(folder) / name;
  make_folder(file.parent_path());
  write_file(file.string(), text);
}

std::string write_shipped(std::string_view prefix, const std::string& folder) {
  std::string out = "Made " + printable(folder) + " with\n";
  for (const std::string_view name : shipped_file_names()) {
    if (name.substr(0, prefix.size()) != prefix) continue;
    const std::string file(name.substr(prefix.size()));
    write_into(folder, file, shipped_file(name));
    out += "  " + file + "\n";
  }
  return out;
}

}  // namespace teetally
