#include <filesystem>

#include "tool/commands.h"
#include "tool/store_file.h"

namespace teetally {

Answer run_store_backup(Session& session) {
  const std::string& copy = session.request.arguments[0];
  std::error_code unknown;  // a file that is not there is no clash
  if (std::filesystem::equivalent(copy, session.request.store, unknown)) {
    session.diagnostics.error("tool/output-over-input", {}, "the backup would overwrite the store itself").help =
        "name another file";
    return stopped(session);
  }
  const auto store = open_store(session, StoreUse::read);
  if (!store) return stopped(session);
  back_up(*store, copy);
  return {ExitCode::done, "wrote " + printable(copy) + "\n"};
}

}  // namespace teetally
