#include "teetally/base/report.h"

#include <fmt/format.h>

#include <algorithm>

#include "teetally/base/words.h"

namespace teetally {
namespace {

std::size_t count_of(const std::vector<Diagnostic>& entries, Severity severity) {
  return static_cast<std::size_t>(std::count_if(entries.begin(), entries.end(),
                                                [&](const Diagnostic& entry) { return entry.severity == severity; }));
}

std::string count_line(std::size_t errors, std::size_t warnings) {
  std::vector<std::string> parts;
  if (errors > 0) parts.push_back(counted(static_cast<std::int64_t>(errors), "error"));
  if (warnings > 0) parts.push_back(counted(static_cast<std::int64_t>(warnings), "warning"));
  return fmt::format("{}\n", fmt::join(parts, ", "));
}

}  // namespace

std::string report_text(const Diagnostics& diagnostics, std::size_t most) {
  const std::vector<Diagnostic> entries = diagnostics.in_order();
  if (entries.empty()) return {};
  const std::size_t errors = count_of(entries, Severity::error);
  // Errors have the first claim on the lines there are.
  std::size_t room_for_warnings = most > errors ? most - errors : 0;
  std::string out;
  std::size_t printed = 0;
  for (const Diagnostic& entry : entries) {
    if (printed == most) break;
    if (entry.severity == Severity::warning) {
      if (room_for_warnings == 0) continue;
      --room_for_warnings;
    }
    out += to_text(entry);
    ++printed;
  }
  if (printed < entries.size()) out += fmt::format("and {} more\n", entries.size() - printed);
  return out + count_line(errors, entries.size() - errors);
}

std::string report_json_lines(const Diagnostics& diagnostics) {
  std::string out;
  for (const Diagnostic& entry : diagnostics.in_order()) out += to_text(to_json(entry), -1) + "\n";
  return out;
}

}  // namespace teetally
