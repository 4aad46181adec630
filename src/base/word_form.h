#pragma once
// The one form in which words of part specifications are kept and compared.
#include <string>
#include <string_view>

namespace teetally {

// Without spaces at its ends, and with single spaces inside.
std::string single_spaced(std::string_view text);
// ASCII letters only; other letters stay as they are.
std::string lower_case(std::string_view text);

}  // namespace teetally
