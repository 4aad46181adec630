#pragma once
// Plain text made comparable. Letters and blanks are those of ASCII; everything else stays as it is.
#include <string>
#include <string_view>

namespace teetally {

bool is_digit(char c);
// Without spaces, tabs and line ends around it.
std::string_view trimmed(std::string_view text);
// Trimmed, and with single spaces inside.
std::string single_spaced(std::string_view text);
std::string lower_case(std::string_view text);

}  // namespace teetally
