#include "structure/tree.h"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <sstream>

#include "case_runner/scratch.h"
#include "places.h"

namespace fs = std::filesystem;

namespace tree {
namespace {

const fs::path kRoot = TEETALLY_SOURCE_DIR;

void add_file(std::vector<File>& out, const fs::path& path, const std::vector<std::string>& endings) {
  if (std::find(endings.begin(), endings.end(), path.extension().string()) != endings.end()) {
    out.push_back({fs::relative(path, kRoot).string(), cases::read_file(path)});
  }
}

}  // namespace

std::vector<File> files(const std::string& folder, const std::vector<std::string>& endings) {
  std::vector<File> out;
  if (folder.empty()) {
    for (const auto& entry : fs::directory_iterator(kRoot)) {
      if (entry.is_regular_file()) add_file(out, entry.path(), endings);
    }
  } else if (fs::exists(kRoot / folder)) {
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / folder)) {
      if (entry.is_regular_file()) add_file(out, entry.path(), endings);
    }
  }
  std::sort(out.begin(), out.end(), [](const File& a, const File& b) { return a.path < b.path; });
  return out;
}

const std::vector<File>& program() {
  static const std::vector<File> kAll = [] {
    std::vector<File> all = files("include", {".h"});
    for (File& file : files("src", {".h", ".cpp"})) all.push_back(std::move(file));
    return all;
  }();
  return kAll;
}

std::string read(const std::string& path) { return cases::read_file(kRoot / path); }
bool exists(const std::string& path) { return fs::exists(kRoot / path); }

const std::vector<std::string>& stages() {
  static const std::vector<std::string> kStages = [] {
    const std::string text = read("src/stages.cmake");
    const auto start = text.find("TEETALLY_STAGES");
    std::istringstream names(text.substr(start, text.find(')', start) - start));
    std::vector<std::string> found;
    std::string word;
    names >> word;
    while (names >> word) found.push_back(word);
    return found;
  }();
  return kStages;
}

int rank_of(const std::string& stage) {
  const auto it = std::find(stages().begin(), stages().end(), stage);
  return it == stages().end() ? -1 : static_cast<int>(it - stages().begin());
}

std::string stage_of(const std::string& path) {
  std::string rest = path;
  for (const std::string start : {"include/", "src/", "teetally/"}) {
    if (rest.compare(0, start.size(), start) == 0) rest.erase(0, start.size());
  }
  const std::string stage = rest.substr(0, rest.find_first_of("/."));
  return rank_of(stage) < 0 ? "" : stage;
}

std::vector<Include> includes(const std::string& text) {
  std::vector<Include> found;
  for (const std::string& line : lines(text)) {
    if (line.compare(0, 9, "#include ") != 0 || line.size() < 12) continue;
    const bool outside = line[9] == '<';
    const auto end = line.find(outside ? '>' : '"', 10);
    found.push_back({line.substr(10, end - 10), outside});
  }
  return found;
}

std::string resolve(const std::string& include) {
  for (const std::string folder : {"include/", "src/"}) {
    if (exists(folder + include)) return folder + include;
  }
  return "";
}

std::set<std::string> reached_from(const std::string& path) {
  std::set<std::string> reached;
  std::vector<std::string> open = {path};
  while (!open.empty()) {
    const std::string file = open.back();
    open.pop_back();
    for (const Include& include : includes(read(file))) {
      const std::string target = include.outside ? "" : resolve(include.name);
      if (!target.empty() && reached.insert(target).second) open.push_back(target);
    }
  }
  return reached;
}

bool has_word(const std::string& code, const std::string& word) {
  const auto part_of_name = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; };
  for (auto at = code.find(word); at != std::string::npos; at = code.find(word, at + 1)) {
    const auto end = at + word.size();
    const bool starts = at == 0 || !part_of_name(code[at - 1]) || !part_of_name(word.front());
    const bool ends = end >= code.size() || !part_of_name(code[end]) || !part_of_name(word.back());
    if (starts && ends) return true;
  }
  return false;
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> all;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) all.push_back(line);
  return all;
}

}  // namespace tree
