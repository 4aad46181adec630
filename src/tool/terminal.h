#pragma once
// The world outside that commands may ask: the width of the terminal, today's date, and the standard streams.
#include <string>
#include <string_view>

namespace teetally {

int terminal_width();  // COLUMNS, else the terminal's own width, else 80; from 40 to 200
// Local date, 2026-04-30; the day that SOURCE_DATE_EPOCH says, in UTC, where it is set
// (reproducible-builds.org/specs/source-date-epoch).
std::string clock_date();
// teetally/store.sqlite in XDG_DATA_HOME, else in HOME/.local/share (XDG Base Directory Specification, 0.8); empty
// where neither is set.
std::string usual_store();

// Whole text to standard output, flushed. A reader that has gone away is not a failure; anything else that
// hinders writing throws WorldFailure.
void print_result(std::string_view text);
bool terminal_on_stderr();                  // one that can take a line back
void print_message(std::string_view text);  // to standard error, as far as it can be written

long peak_memory_kib();

}  // namespace teetally
