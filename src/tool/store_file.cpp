#include "tool/store_file.h"

namespace teetally {

std::optional<Store> open_store(Session& session, StoreUse use) {
  if (session.request.store.empty()) {
    session.diagnostics.error("tool/no-store", {}, "neither XDG_DATA_HOME nor HOME says where the store is").help =
        "name its file: --store FILE";
    return std::nullopt;
  }
  return timed(session, "store", [&] { return open_store(session.request.store, use, session.diagnostics); });
}

}  // namespace teetally
