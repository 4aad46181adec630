#include "base/source_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>

#include "base/utf8.h"
#include "teetally/base/words.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool is_utf16(std::string_view text) {
  return text.substr(0, 2) == "\xFF\xFE" || text.substr(0, 2) == "\xFE\xFF" ||
         (text.size() > 1 && (text[0] == '\0') != (text[1] == '\0'));
}

bool is_allowed_control(std::string_view text, std::size_t at) {
  const char c = text[at];
  if (c == '\n' || c == '\t') return true;
  return c == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
}

std::string complaint(std::string_view text, std::size_t at, const Character& c) {
  if (!c.valid) return fmt::format("the byte 0x{:02x} is not UTF-8 text", static_cast<unsigned>(c.code));
  if (text[at] == '\r') return "a line ends in a lone carriage return; expected a line feed";
  return fmt::format("the control character U+{:04X} has no place in a text file", static_cast<unsigned>(c.code));
}

}  // namespace

Source source_from_text(std::string name, std::string text) {
  if (std::string_view(text).substr(0, kByteOrderMark.size()) == kByteOrderMark) text.erase(0, kByteOrderMark.size());
  return std::make_shared<const SourceText>(SourceText{std::move(name), std::move(text)});
}

Source read_source(const std::string& path, Diagnostics& diagnostics) {
  std::ifstream file(path, std::ios::binary);
  std::string text;
  std::array<char, 65536> part{};
  // A pipe may never end, so that reading stops soon after the limit.
  while (file && text.size() <= kLargestFile) {
    file.read(part.data(), part.size());
    text.append(part.data(), static_cast<std::size_t>(file.gcount()));
  }
  // A folder opens but does not read; a short read at the end of a file is the usual case.
  if (file.bad() || !(file.eof() || file.good())) {
    std::error_code unknown;
    const bool folder = std::filesystem::is_directory(path, unknown);
    diagnostics
        .error("base/no-such-file", {},
               fmt::format("cannot read the file {}{}", quoted(path), folder ? ": it is a folder" : ""))
        .help = folder ? "name a file in it"
                       : "check the spelling of its name, the folder you are in, and that you may read it";
    return nullptr;
  }
  if (text.size() > kLargestFile) {
    diagnostics.error("base/file-too-large", {}, fmt::format("the file {} is larger than 16 MB", quoted(path))).help =
        "split it into several files";
    return nullptr;
  }
  return source_from_text(path, std::move(text));
}

bool is_clean_text(const Source& source, Diagnostics& diagnostics) {
  const std::string_view text = source->text;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    const bool control = c.valid && c.code < 0xA0 && is_control(c.code) && !is_allowed_control(text, at);
    if (!c.valid || control) {
      const bool wide = is_utf16(text);
      Diagnostic& error = diagnostics.error("base/bad-text", LineIndex(source).place_at(at),
                                            wide ? "the file is UTF-16 text; expected UTF-8" : complaint(text, at, c));
      error.help = "save the file as UTF-8 text with ordinary line ends";
      return false;
    }
    at += c.bytes;
  }
  return true;
}

LineIndex::LineIndex(const Source& source) : source_(source), starts_{0} {
  const std::string& text = source->text;
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 1)) {
    starts_.push_back(at + 1);
  }
}

Place LineIndex::place_at(std::size_t offset) const {
  offset = std::min(offset, source_->text.size());
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  const auto line = static_cast<int>(after - starts_.begin()) - 1;
  return place_of(line, static_cast<int>(offset - *std::prev(after)));
}

std::size_t LineIndex::offset_of(int line, int byte_column) const {
  if (line < 0 || byte_column < 0) return 0;
  const std::size_t start = starts_[std::min(static_cast<std::size_t>(line), starts_.size() - 1)];
  return std::min(start + static_cast<std::size_t>(byte_column), source_->text.size());
}

Place LineIndex::place_of(int line, int byte_column) const {
  if (line < 0 || byte_column < 0) return {source_, 1, 1};
  const std::size_t index = std::min(static_cast<std::size_t>(line), starts_.size() - 1);
  const std::size_t start = starts_[index];
  const std::size_t end = index + 1 < starts_.size() ? starts_[index + 1] : source_->text.size();
  const std::size_t length = std::min(static_cast<std::size_t>(byte_column), end - start);
  if (last_.line != index || last_.bytes > length) last_ = {index, 0, 0};
  const std::string_view fresh(source_->text.data() + start + last_.bytes, length - last_.bytes);
  last_ = {index, length, last_.characters + character_count(fresh)};
  return {source_, static_cast<int>(index) + 1, last_.characters + 1};
}

}  // namespace teetally
