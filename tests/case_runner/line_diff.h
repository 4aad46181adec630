#pragma once
// The difference of two texts, line by line, for a person to read: "- " expected and missing, "+ " got and not
// expected, two blanks for lines around a change. Empty when the texts are equal. Invisible differences (a
// final line feed, control bytes) are shown escaped.
#include <string>

namespace cases {

std::string line_diff(const std::string& expected, const std::string& got);

}  // namespace cases
