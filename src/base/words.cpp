#include "teetally/base/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "base/utf8.h"

namespace teetally {
namespace {

// Words longer than this are not misspellings of anything we know, and distances cost length times length.
constexpr std::size_t kLongestWord = 64;

std::u32string folded(std::string_view text) {
  std::u32string out;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    out.push_back(c.code >= U'A' && c.code <= U'Z' ? c.code + (U'a' - U'A') : c.code);
    at += c.bytes;
  }
  return out;
}

// Optimal string alignment: insert, delete, change and swap of neighbours cost one each; capital letters
// cost nothing.
std::size_t distance(const std::u32string& a, const std::u32string& b) {
  std::vector<std::size_t> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word, const std::vector<std::string>& known) {
  if (word.size() > 4 * kLongestWord) return std::nullopt;
  const std::u32string wanted = folded(word);
  if (wanted.empty() || wanted.size() > kLongestWord) return std::nullopt;
  const std::size_t limit = std::min(wanted.size() / 3 + 1, wanted.size() / 2);
  std::size_t best = limit + 1;
  const std::string* nearest = nullptr;
  for (const std::string& candidate : known) {
    if (candidate.size() > 4 * kLongestWord) continue;
    const std::u32string other = folded(candidate);
    // A distance as long as the word itself would call any short word a misspelling of any other.
    const std::size_t found = distance(wanted, other);
    if (found < best && found < std::max(wanted.size(), other.size())) {
      best = found;
      nearest = &candidate;
    }
  }
  if (nearest == nullptr) return std::nullopt;
  return *nearest;
}

std::string counted(std::int64_t n, std::string_view singular, std::string_view plural) {
  if (n == 1) return fmt::format("1 {}", singular);
  if (plural.empty()) return fmt::format("{} {}s", n, singular);
  return fmt::format("{} {}", n, plural);
}

std::string listed(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

std::string quoted(std::string_view text) { return fmt::format("'{}'", printable(text)); }

bool is_valid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    if (!c.valid) return false;
    at += c.bytes;
  }
  return true;
}

int display_width(std::string_view text) {
  int width = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    width += c.valid ? character_width(c.code) : 1;
    at += c.bytes;
  }
  return width;
}

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    if (!c.valid) {
      out += fmt::format("\\x{:02x}", static_cast<unsigned>(c.code));
    } else if (c.code == U'\n') {
      out += "\\n";
    } else if (c.code == U'\t') {
      out += "\\t";
    } else if (is_control(c.code)) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c.code));
    } else {
      out += text.substr(at, c.bytes);
    }
    at += c.bytes;
  }
  return out;
}

}  // namespace teetally
