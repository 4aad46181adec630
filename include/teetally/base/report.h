#pragma once
// All diagnostics of a run as one text: what the tool prints on standard error.
#include <cstddef>
#include <string>

#include "teetally/base/diagnostic.h"

namespace teetally {

inline constexpr std::size_t kMostPrinted = 20;

// In order of place; stops after `most` with "and N more"; ends with a count line ("2 errors, 1 warning").
// Errors are counted before they are cut off, and no error is cut off in favour of a warning. Empty when
// there are none.
std::string report_text(const Diagnostics& diagnostics, std::size_t most = kMostPrinted);
// Every diagnostic, one JSON object a line.
std::string report_json_lines(const Diagnostics& diagnostics);

}  // namespace teetally
