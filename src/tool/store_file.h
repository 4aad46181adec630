#pragma once
// The store of this run: --store, or the one in the user's data folder.
#include "teetally/store.h"
#include "tool/session.h"

namespace teetally {

// Nothing, and diagnostics, where it cannot be used.
std::optional<Store> open_store(Session& session, StoreUse use);

}  // namespace teetally
