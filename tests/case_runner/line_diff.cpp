#include "case_runner/line_diff.h"

#include <algorithm>
#include <sstream>
#include <vector>

#include "case_runner/case_file.h"

namespace cases {
namespace {

using Lines = std::vector<std::string>;
constexpr std::size_t kAround = 2;
constexpr std::size_t kMostCells = 40'000'000;

Lines lines_of(const std::string& text) {
  const std::string shown = needs_escape(text) ? escape(text) : text;
  Lines lines;
  std::istringstream in(shown);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

struct Edit {
  char mark = ' ';
  std::string line;
};

// Longest common subsequence by the plain table; texts too long for it are shown whole, old then new.
std::vector<Edit> edits(const Lines& a, const Lines& b) {
  std::vector<Edit> out;
  const std::size_t width = b.size() + 1;
  if ((a.size() + 1) * width > kMostCells) {
    for (const std::string& line : a) out.push_back({'-', line});
    for (const std::string& line : b) out.push_back({'+', line});
    return out;
  }
  std::vector<int> common((a.size() + 1) * width, 0);
  for (std::size_t i = a.size(); i-- > 0;) {
    for (std::size_t j = b.size(); j-- > 0;) {
      common[i * width + j] = a[i] == b[j] ? common[(i + 1) * width + j + 1] + 1
                                           : std::max(common[(i + 1) * width + j], common[i * width + j + 1]);
    }
  }
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < a.size() || j < b.size()) {
    if (i < a.size() && j < b.size() && a[i] == b[j]) {
      out.push_back({' ', a[i++]});
      ++j;
    } else if (j == b.size() || (i < a.size() && common[(i + 1) * width + j] >= common[i * width + j + 1])) {
      out.push_back({'-', a[i++]});
    } else {
      out.push_back({'+', b[j++]});
    }
  }
  return out;
}

std::vector<bool> worth_showing(const std::vector<Edit>& all) {
  std::vector<bool> shown(all.size(), false);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].mark == ' ') continue;
    const std::size_t first = i < kAround ? 0 : i - kAround;
    for (std::size_t k = first; k <= i + kAround && k < all.size(); ++k) shown[k] = true;
  }
  return shown;
}

}  // namespace

std::string line_diff(const std::string& expected, const std::string& got) {
  if (expected == got) return "";
  const std::vector<Edit> all = edits(lines_of(expected), lines_of(got));
  const std::vector<bool> shown = worth_showing(all);
  std::string out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (!shown[i]) {
      if (i > 0 && shown[i - 1]) out += "  ...\n";
      continue;
    }
    out += all[i].mark;
    out += ' ' + all[i].line + '\n';
  }
  return out.empty() ? "  (the texts differ only in how lines end)\n" : out;
}

}  // namespace cases
