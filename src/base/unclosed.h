#pragma once
// Where a bracket or quote was opened that is never closed: the YAML library reports these at the end of the
// file, far from the cause.
#include <cstddef>
#include <optional>
#include <string_view>

#include "teetally/base/diagnostic.h"

namespace teetally {

// The innermost opening that is still open at the end of the text, as a note; a light reading of YAML's rules
// that serves hints only.
std::optional<DiagnosticNote> last_unclosed(const Source& source);

// The byte of the quote that closes the one at `at`, by YAML's rules; npos when nothing does.
std::size_t end_of_quote(std::string_view text, std::size_t at);

}  // namespace teetally
