#pragma once
// Words in messages: nearest spelling, counts with nouns, display width, and text made safe for a terminal.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace teetally {

// The known word nearest to `word` by optimal-string-alignment distance (an adjacent swap counts one), in
// characters; nothing when the nearest is further than a third of the word's length plus one, or than half of it.
std::optional<std::string> nearest_word(std::string_view word, const std::vector<std::string>& known);

// "1 tee", "3 tees"; plural given when it is not just an s.
std::string counted(std::int64_t n, std::string_view singular, std::string_view plural = {});
// "a, b and c"
std::string listed(const std::vector<std::string>& words);
std::string quoted(std::string_view text);  // 'text'
// Exact matches for strings and literals, which argument lookup would otherwise send to std::quoted.
inline std::string quoted(const char* text) { return quoted(std::string_view(text)); }
inline std::string quoted(const std::string& text) { return quoted(std::string_view(text)); }

bool is_valid_utf8(std::string_view text);
// Columns a terminal needs: wide characters count two, combining marks none.
int display_width(std::string_view text);
// Control characters and bad bytes become visible escapes, so that text from files cannot drive a terminal.
std::string printable(std::string_view text);

}  // namespace teetally
