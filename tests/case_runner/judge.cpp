#include "case_runner/judge.h"

#include <algorithm>
#include <filesystem>

#include "case_runner/line_diff.h"

namespace fs = std::filesystem;

namespace cases {
namespace {

std::string indented(const std::string& text) {
  std::string out;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    out += "    " + text.substr(start, end - start) + "\n";
    start = end + 1;
  }
  return out;
}

std::string expected_bytes(const Workshop& shop, const Text& text) {
  if (text.in.empty()) return text.bytes;
  const fs::path file = shop.tree / text.in;
  return fs::exists(file) ? read_file(file) : "";
}

std::string judge_text(const Workshop& shop, const std::string& what, const Text& expected, const std::string& got) {
  const std::string diff = line_diff(expected_bytes(shop, expected), got);
  if (diff.empty()) return "";
  return "  " + what + " differs (- expected, + got):\n" + indented(diff);
}

// Files that the command wrote, changed (new bytes) or removed (no bytes).
struct Change {
  std::string name;
  bool removed = false;
  std::string bytes;
};

std::vector<Change> changes(const Snapshot& before, const Snapshot& after) {
  std::vector<Change> out;
  for (const auto& [name, bytes] : after) {
    const auto old = before.find(name);
    if (old == before.end() || old->second != bytes) out.push_back({name, false, bytes});
  }
  for (const auto& [name, bytes] : before) {
    if (after.find(name) == after.end()) out.push_back({name, true, ""});
  }
  return out;
}

const Change* find_change(const std::vector<Change>& all, const std::string& name) {
  const auto it = std::find_if(all.begin(), all.end(), [&](const Change& c) { return c.name == name && !c.removed; });
  return it == all.end() ? nullptr : &*it;
}

std::string judge_files(const Workshop& shop, const Step& step, const std::vector<Change>& all) {
  std::string out;
  for (const LeftFile& file : step.leaves) {
    const Change* change = find_change(all, file.name);
    if (change == nullptr) {
      out += "  did not leave " + file.name + "\n";
    } else if (!file.any_content) {
      out += judge_text(shop, file.name, file.text, change->bytes);
    }
  }
  for (const Change& change : all) {
    const auto named = [&](const LeftFile& file) { return file.name == change.name; };
    if (change.removed) {
      out += "  removed " + change.name + "\n";
    } else if (std::none_of(step.leaves.begin(), step.leaves.end(), named)) {
      out += "  left a file that the case does not name: " + change.name + "\n";
    }
  }
  return out;
}

struct Happened {
  Ran ran;
  std::vector<Change> files;
};

Happened happen(const Workshop& shop, const Step& step) {
  place_inputs(shop, step);
  const Snapshot before = snapshot(shop.folder);
  Happened happened;
  happened.ran = run_command(shop, step);
  happened.files = changes(before, snapshot(shop.folder));
  return happened;
}

std::string judge_step(const Workshop& shop, const Step& step) {
  const Happened happened = happen(shop, step);
  std::string out;
  if (!happened.ran.broke.empty()) out += "  " + happened.ran.broke + "\n";
  if (happened.ran.exit_code != step.exit_code) {
    out +=
        "  exit code " + std::to_string(happened.ran.exit_code) + ", expected " + std::to_string(step.exit_code) + "\n";
  }
  out += judge_text(shop, "stdout", step.out, happened.ran.out);
  out += judge_text(shop, "stderr", step.err, happened.ran.err);
  out += judge_files(shop, step, happened.files);
  return out.empty() ? "" : "  " + std::string("after: ") + step.command + out;
}

void take_text(const Workshop& shop, Text& text, const std::string& bytes) {
  if (!text.in.empty()) {
    write_file(shop.tree / text.in, bytes);
  } else {
    text.bytes = bytes;
  }
}

void take_files(const Workshop& shop, Step& step, const std::vector<Change>& all) {
  std::vector<LeftFile> kept;
  for (LeftFile& file : step.leaves) {
    if (const Change* change = find_change(all, file.name)) {
      if (!file.any_content) take_text(shop, file.text, change->bytes);
      kept.push_back(file);
    }
  }
  for (const Change& change : all) {
    const auto named = [&](const LeftFile& file) { return file.name == change.name; };
    if (!change.removed && std::none_of(kept.begin(), kept.end(), named)) {
      kept.push_back({change.name, false, {change.bytes, false, ""}});
    }
  }
  step.leaves = kept;
}

}  // namespace

std::string judge(const Workshop& shop, const Case& test) {
  empty_folder(shop);
  for (const Step& step : test.steps) {
    // What follows a failed command would only repeat its failure.
    if (std::string complaint = judge_step(shop, step); !complaint.empty()) return complaint;
  }
  return "";
}

Case take_as_expected(const Workshop& shop, Case test) {
  empty_folder(shop);
  for (Step& step : test.steps) {
    const Happened happened = happen(shop, step);
    if (!happened.ran.broke.empty()) throw CaseError(happened.ran.broke + " in: " + step.command);
    take_text(shop, step.out, happened.ran.out);
    take_text(shop, step.err, happened.ran.err);
    step.exit_code = happened.ran.exit_code;
    take_files(shop, step, happened.files);
  }
  return test;
}

}  // namespace cases
