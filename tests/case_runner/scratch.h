#pragma once
// A scratch folder in which commands run with the built program first on the path, a fixed small environment,
// and a time limit.
#include <filesystem>
#include <map>
#include <string>

#include "case_runner/case_file.h"

namespace cases {

std::string read_file(const std::filesystem::path& path);
void write_file(const std::filesystem::path& path, const std::string& bytes);

// Every file below the folder, by its relative name.
using Snapshot = std::map<std::string, std::string>;
Snapshot snapshot(const std::filesystem::path& folder);

struct Ran {
  std::string out, err;
  int exit_code = 0;
  std::string broke;  // "killed by signal 11", "still running after 300 s"; empty when it ended by itself
};

struct Workshop {
  std::filesystem::path tree;     // the source tree
  std::filesystem::path program;  // the built program
  std::filesystem::path folder;   // emptied at the start of each case
};

void empty_folder(const Workshop& shop);
void place_inputs(const Workshop& shop, const Step& step);
Ran run_command(const Workshop& shop, const Step& step);

}  // namespace cases
