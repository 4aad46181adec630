#pragma once
// UTF-8 one character at a time. Bad bytes are answered one byte long and marked as bad, so that every text
// can be walked to its end.
#include <cstddef>
#include <string>
#include <string_view>

namespace teetally {

struct Character {
  char32_t code = 0;
  std::size_t bytes = 1;
  bool valid = false;
};

// The character that starts at `at` (which must lie inside the text).
Character character_at(std::string_view text, std::size_t at);
// The number of characters, a bad byte counting one.
int character_count(std::string_view text);
// Columns of one character on a terminal: 0, 1 or 2.
int character_width(char32_t code);
// A character that moves the cursor, or otherwise does something instead of showing something.
bool is_control(char32_t code);

}  // namespace teetally
