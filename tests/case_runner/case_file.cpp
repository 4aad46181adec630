#include "case_runner/case_file.h"

#include <sstream>

namespace cases {
namespace {

const std::string kMark = "=== ";

struct Section {
  int line = 0;
  std::string word, rest, option, body;
};

[[noreturn]] void fail(int line, const std::string& what) {
  throw CaseError("line " + std::to_string(line) + ": " + what);
}

bool starts_with(const std::string& text, const std::string& start) {
  return text.compare(0, start.size(), start) == 0;
}

Section read_heading(const std::string& heading, int line) {
  Section section;
  section.line = line;
  std::string left = heading;
  if (const auto comma = left.find(", "); comma != std::string::npos) {
    section.option = left.substr(comma + 2);
    left.resize(comma);
  }
  const auto space = left.find(' ');
  section.word = left.substr(0, space);
  if (space != std::string::npos) section.rest = left.substr(space + 1);
  return section;
}

// A body line that would read as a heading is written with a backslash before it.
std::string body_line(const std::string& line) { return starts_with(line, "\\" + kMark) ? line.substr(1) : line; }

std::vector<Section> split_sections(const std::string& text, std::string& about) {
  std::vector<Section> sections;
  std::istringstream lines(text);
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (starts_with(line, kMark)) {
      sections.push_back(read_heading(line.substr(kMark.size()), number));
    } else if (sections.empty()) {
      about += line + "\n";
    } else {
      sections.back().body += body_line(line) + "\n";
    }
  }
  return sections;
}

Text read_text(const Section& section) {
  Text text;
  if (section.option == "escaped") {
    text.escaped = true;
    text.bytes = unescape(section.body);
  } else {
    if (!section.option.empty()) fail(section.line, "unknown option '" + section.option + "'; expected 'escaped'");
    text.bytes = section.body;
  }
  return text;
}

// "stdout" holds the text itself, "stdout in FILE" names a file of the source tree that does.
Text read_stream(const Section& section) {
  if (starts_with(section.rest, "in ")) {
    if (!section.body.empty()) fail(section.line, "a stream kept in a file has no text here");
    Text text;
    text.in = section.rest.substr(3);
    return text;
  }
  if (!section.rest.empty()) fail(section.line, "expected 'in FILE' or nothing after '" + section.word + "'");
  return read_text(section);
}

InputFile read_use(const Section& section) {
  if (!section.body.empty()) fail(section.line, "'use' has no text of its own");
  InputFile file;
  file.from = section.rest;
  if (const auto as = file.from.find(" as "); as != std::string::npos) {
    file.name = file.from.substr(as + 4);
    file.from.resize(as);
  } else {
    file.name = file.from.substr(file.from.rfind('/') + 1);
  }
  if (file.from.empty() || file.name.empty()) fail(section.line, "expected 'use PATH' or 'use PATH as NAME'");
  return file;
}

LeftFile read_left(const Section& section) {
  LeftFile file;
  file.name = section.rest;
  if (file.name.empty()) fail(section.line, "expected 'leaves NAME'");
  if (section.option == "any content") {
    if (!section.body.empty()) fail(section.line, "a file of any content has no text here");
    file.any_content = true;
  } else if (const auto in = file.name.find(" in "); in != std::string::npos) {
    file.text.in = file.name.substr(in + 4);
    file.name.resize(in);
  } else {
    file.text = read_text(section);
  }
  return file;
}

int read_exit(const Section& section) {
  if (section.rest.empty() || section.rest.find_first_not_of("0123456789") != std::string::npos) {
    fail(section.line, "expected 'exit NUMBER'");
  }
  return std::stoi(section.rest);
}

// Files belong to the command that follows them; what a command does follows it.
class Assembly {
 public:
  void add(const Section& section) {
    if (section.word == "file") {
      next_.inputs.push_back({section.rest, "", read_text(section)});
    } else if (section.word == "use") {
      next_.inputs.push_back(read_use(section));
    } else if (section.word == "run") {
      next_.command = section.body;
      if (next_.command.empty()) fail(section.line, "nothing to run");
      steps_.push_back(std::move(next_));
      next_ = {};
    } else {
      add_result(section);
    }
  }

  std::vector<Step> finish() {
    if (steps_.empty()) throw CaseError("no 'run' section");
    if (!next_.inputs.empty()) throw CaseError("files after the last 'run' are never used");
    return std::move(steps_);
  }

 private:
  void add_result(const Section& section) {
    if (steps_.empty() || !next_.inputs.empty()) fail(section.line, "'" + section.word + "' must follow its 'run'");
    Step& step = steps_.back();
    if (section.word == "input") {
      step.input = read_stream(section);
    } else if (section.word == "stdout") {
      step.out = read_stream(section);
    } else if (section.word == "stderr") {
      step.err = read_stream(section);
    } else if (section.word == "exit") {
      step.exit_code = read_exit(section);
    } else if (section.word == "leaves") {
      step.leaves.push_back(read_left(section));
    } else {
      fail(section.line,
           "unknown section '" + section.word + "'; known: file, use, run, input, stdout, stderr, exit, leaves");
    }
  }

  Step next_;
  std::vector<Step> steps_;
};

std::string marked_body(const std::string& bytes) {
  std::string body;
  std::istringstream lines(bytes);
  for (std::string line; std::getline(lines, line);) {
    if (starts_with(line, kMark) || starts_with(line, "\\" + kMark)) body += '\\';
    body += line + "\n";
  }
  return body;
}

std::string print_text(const std::string& heading, const Text& text) {
  if (!text.in.empty()) return kMark + heading + " in " + text.in + "\n";
  if (text.escaped || needs_escape(text.bytes)) return kMark + heading + ", escaped\n" + escape(text.bytes);
  return kMark + heading + "\n" + marked_body(text.bytes);
}

std::string print_stream(const std::string& heading, const Text& text) {
  return text.bytes.empty() && text.in.empty() ? "" : print_text(heading, text);
}

std::string print_step(const Step& step) {
  std::string out;
  for (const InputFile& file : step.inputs) {
    const bool same_name = file.name == file.from.substr(file.from.rfind('/') + 1);
    out += file.from.empty() ? print_text("file " + file.name, file.text)
                             : kMark + "use " + file.from + (same_name ? "" : " as " + file.name) + "\n";
  }
  out += kMark + "run\n" + marked_body(step.command);
  out += print_stream("input", step.input) + print_stream("stdout", step.out) + print_stream("stderr", step.err);
  if (step.exit_code != 0) out += kMark + "exit " + std::to_string(step.exit_code) + "\n";
  for (const LeftFile& file : step.leaves) {
    out += file.any_content ? kMark + "leaves " + file.name + ", any content\n"
                            : print_text("leaves " + file.name, file.text);
  }
  return out;
}

}  // namespace

Case read_case(const std::string& text) {
  if (!text.empty() && text.back() != '\n') throw CaseError("the file must end with a line feed");
  Case test;
  Assembly assembly;
  for (const Section& section : split_sections(text, test.about)) assembly.add(section);
  test.steps = assembly.finish();
  return test;
}

std::string print_case(const Case& test) {
  std::string out = test.about;
  for (const Step& step : test.steps) out += print_step(step);
  return out;
}

}  // namespace cases
