#pragma once
// Dates as text: "2026-02-28" (ISO 8601). Dates in this form compare as text, so nothing else is kept of them.
#include <string_view>

namespace teetally {

// Whether it is such a date, of a day that exists.
bool is_iso_date(std::string_view text);

}  // namespace teetally
