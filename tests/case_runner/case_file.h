#pragma once
// A .case file is one test of the program as a person runs it: input files, a command, and everything the
// command must print, return and leave behind. The format is described in tests/README.md. Reading and
// printing are exact inverses for files that this code printed; a malformed file throws CaseError.
#include <stdexcept>
#include <string>
#include <vector>

namespace cases {

struct CaseError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// The text of one stream or file. When `in` is set the text is kept in that file of the source tree instead.
struct Text {
  std::string bytes;
  bool escaped = false;
  std::string in;
};

struct InputFile {
  std::string name;  // in the scratch folder
  std::string from;  // copied from this file or folder of the source tree; empty: `text`
  Text text;
};

struct LeftFile {
  std::string name;
  bool any_content = false;
  Text text;
};

struct Step {
  std::vector<InputFile> inputs;  // set up before the command runs
  std::string command;            // lines for the shell
  Text input;                     // its standard input
  Text out, err;                  // absent sections mean empty
  int exit_code = 0;
  std::vector<LeftFile> leaves;  // every file the command writes or changes, no others
};

struct Case {
  std::string about;  // prose before the first section
  std::vector<Step> steps;
};

Case read_case(const std::string& text);
std::string print_case(const Case& test);

// Bytes as they stand in an escaped section: a byte may be \xNN, a backslash is doubled, and a backslash at
// the end of a line joins it to what follows without a line feed.
std::string escape(const std::string& bytes);
std::string unescape(const std::string& text);
// Whether a section can only hold these bytes escaped: control bytes, bad UTF-8, or no final line feed.
bool needs_escape(const std::string& bytes);

}  // namespace cases
