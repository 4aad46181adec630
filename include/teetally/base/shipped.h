#pragma once
// Files that are built into the program, so that it runs from anywhere: the vocabulary, the practice file and
// the starter files of `init`.
#include <string_view>
#include <vector>

namespace teetally {

// By the name under which the build embeds it ("vocabulary.yaml", "starter/garden.yaml"); asserts on others.
std::string_view shipped_file(std::string_view name);
std::vector<std::string_view> shipped_file_names();

}  // namespace teetally
