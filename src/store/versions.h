#pragma once
// The tables of the store, as steps from one version of the file to the next. A step that was released is never
// changed: files of every version are out there.
#include <string>
#include <vector>

namespace teetally {

// "TTLY": marks our files among SQLite's.
inline constexpr std::int64_t kStoreMark = 0x54544C59;

// The step at i leads from version i to version i + 1; version 0 is an empty file.
const std::vector<std::string>& store_steps();

}  // namespace teetally
