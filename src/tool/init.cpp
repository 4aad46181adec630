#include <filesystem>

#include "tool/commands.h"
#include "tool/new_folder.h"

namespace teetally {

Answer run_init(Session& session) {
  // As a path it is written the way the system writes it.
  const std::string folder = std::filesystem::path(session.request.arguments[0]).string();
  if (folder.empty()) {
    session.diagnostics.error("tool/missing-argument", {}, "the folder's name is empty").help =
        "usage: teetally init FOLDER";
    return stopped(session);
  }
  if (!is_new_folder(folder, session.diagnostics)) return stopped(session);
  return {ExitCode::done, write_shipped("starter/", folder) +
                              next_steps({"cd " + folder, "edit garden.yaml", "teetally check garden.yaml"})};
}

}  // namespace teetally
