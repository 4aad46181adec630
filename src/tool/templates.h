#pragma once
// The page templates of a folder.
#include <optional>

#include "teetally/render/papers.h"
#include "tool/session.h"

namespace teetally {

// The templates in the folder, checked; nothing when one is unsound, which the diagnostics tell. Other files in the
// folder are left alone.
std::optional<OwnTemplates> read_templates(const std::string& folder, Diagnostics& diagnostics);
// Those of --templates; none when it is not given.
std::optional<OwnTemplates> templates_wanted(Session& session);

}  // namespace teetally
