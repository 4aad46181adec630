#pragma once
// The source tree as text, for tests that hold the tree itself to its laws.
#include <set>
#include <string>
#include <vector>

namespace tree {

struct File {
  std::string path;  // relative to the root: "src/base/money.cpp"
  std::string text;
};

// Files below a folder with one of the endings, by name; "" as the folder means the root's own files only.
std::vector<File> files(const std::string& folder, const std::vector<std::string>& endings);
// All headers and sources of the program: include/ and src/.
const std::vector<File>& program();
std::string read(const std::string& path);
bool exists(const std::string& path);

// The stages in order, from src/stages.cmake.
const std::vector<std::string>& stages();
int rank_of(const std::string& stage);  // -1 when there is no such stage
// The stage a file or an include belongs to ("teetally/base/money.h", "src/base/words.cpp"); "" for others.
std::string stage_of(const std::string& path);

struct Include {
  std::string name;      // between the quotes or brackets
  bool outside = false;  // in brackets
};
std::vector<Include> includes(const std::string& text);
// The file an include in quotes names; "" when there is none.
std::string resolve(const std::string& include);
// Every file that a file includes, directly or through others, itself not counted.
std::set<std::string> reached_from(const std::string& path);

// The text with comments and the contents of literals blanked, for looking at code alone.
std::string code_only(const std::string& text);
// The contents of all string literals, raw ones too.
std::vector<std::string> literals(const std::string& text);
// Whether `word` stands in the code by itself, not as a part of a longer name.
bool has_word(const std::string& code, const std::string& word);

std::vector<std::string> lines(const std::string& text);

}  // namespace tree
