// case_runner PROGRAM TREE SCRATCH CASE|FOLDER...
// Runs every case named, and every *.case below each folder named, in order of their names. With UPDATE_CASES=1
// in the environment it rewrites what the cases expect instead; read the difference before you keep it.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>

#include "case_runner/judge.h"

namespace fs = std::filesystem;
namespace {

std::vector<fs::path> find_cases(const std::vector<std::string>& arguments) {
  std::vector<fs::path> found;
  for (const std::string& argument : arguments) {
    if (!fs::is_directory(argument)) {
      found.emplace_back(argument);
      continue;
    }
    for (const auto& entry : fs::recursive_directory_iterator(argument)) {
      if (entry.path().extension() == ".case") found.push_back(entry.path());
    }
  }
  std::sort(found.begin(), found.end());
  return found;
}

bool update_wanted() {
  const char* value = std::getenv("UPDATE_CASES");
  return value != nullptr && std::string(value) == "1";
}

// Answers what went wrong with one case file, for a person to read.
std::string run_case(const cases::Workshop& shop, const fs::path& file, bool update) {
  try {
    const std::string text = cases::read_file(file);
    const cases::Case test = cases::read_case(text);
    if (!update) return cases::judge(shop, test);
    const std::string now = cases::print_case(cases::take_as_expected(shop, test));
    if (now != text) {
      cases::write_file(file, now);
      std::cout << "rewrote " << file.string() << "\n";
    }
    return "";
  } catch (const std::exception& error) {
    return std::string("  ") + error.what() + "\n";
  }
}

}  // namespace

int main(int count, char** values) {
  const std::vector<std::string> arguments(values + 1, values + count);
  if (arguments.size() < 4) {
    std::cerr << "usage: case_runner PROGRAM TREE SCRATCH CASE|FOLDER...\n";
    return 2;
  }
  const fs::path tree = fs::absolute(arguments[1]);
  const bool update = update_wanted();
  int failed = 0;
  int passed = 0;
  for (const fs::path& file : find_cases({arguments.begin() + 3, arguments.end()})) {
    const std::string name = fs::relative(file, tree).string();
    const cases::Workshop shop{tree, fs::absolute(arguments[0]), fs::absolute(arguments[2]) / file.stem()};
    const std::string complaint = run_case(shop, file, update);
    if (complaint.empty()) {
      ++passed;
    } else {
      ++failed;
      std::cout << "FAILED " << name << "\n" << complaint;
    }
  }
  std::cout << passed << " passed, " << failed << " failed\n";
  // A folder without cases is a mistake in the call, not a success.
  return failed == 0 && passed > 0 ? 0 : 1;
}
