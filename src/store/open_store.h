#pragma once
// Opening with a version of one's own: what tests need to make files of earlier and later versions.
#include "store/versions.h"
#include "teetally/store.h"

namespace teetally {

std::optional<Store> open_store(const std::string& path, StoreUse use, const std::vector<std::string>& steps,
                                Diagnostics& diagnostics);

}  // namespace teetally
