#pragma once
// Shipped files written out for editing, into a folder that is new or empty: nothing is ever overwritten.
#include <string>
#include <string_view>

#include "tool/session.h"

namespace teetally {

// Whether `folder` may be filled; when not, the diagnostics say why.
bool is_new_folder(const std::string& folder, Diagnostics& diagnostics);
// Every shipped file whose name starts with `prefix`, by the rest of its name. Answers what was made, to show.
std::string write_shipped(std::string_view prefix, const std::string& folder);

// One file into it; the folder is made if need be.
void write_into(const std::string& folder, const std::string& name, std::string_view text);

}  // namespace teetally
