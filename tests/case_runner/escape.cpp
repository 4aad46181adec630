#include <cstddef>

#include "case_runner/case_file.h"

namespace cases {
namespace {

constexpr char kHex[] = "0123456789abcdef";

unsigned char byte_at(const std::string& text, std::size_t i) { return static_cast<unsigned char>(text[i]); }

// Length of the well-formed UTF-8 sequence at i, or 0 (RFC 3629, section 4; overlong forms are not looked for:
// they only make a section escaped that need not be).
std::size_t sequence_length(const std::string& text, std::size_t i) {
  const unsigned char lead = byte_at(text, i);
  const std::size_t length = lead < 0x80             ? 1
                             : (lead & 0xe0) == 0xc0 ? 2
                             : (lead & 0xf0) == 0xe0 ? 3
                             : (lead & 0xf8) == 0xf0 ? 4
                                                     : 0;
  if (length == 0 || i + length > text.size()) return 0;
  for (std::size_t k = 1; k < length; ++k) {
    if ((byte_at(text, i + k) & 0xc0) != 0x80) return 0;
  }
  return length;
}

bool plain(unsigned char byte) { return byte == '\n' || byte == '\t' || (byte >= 0x20 && byte != 0x7f); }

std::string hex_byte(unsigned char byte) { return {'\\', 'x', kHex[byte >> 4], kHex[byte & 15]}; }

int hex_value(char digit) {
  if (digit >= '0' && digit <= '9') return digit - '0';
  if (digit >= 'a' && digit <= 'f') return digit - 'a' + 10;
  throw CaseError("expected two digits of 0-9 a-f after \\x in an escaped section");
}

}  // namespace

bool needs_escape(const std::string& bytes) {
  if (!bytes.empty() && bytes.back() != '\n') return true;
  for (std::size_t i = 0; i < bytes.size();) {
    const std::size_t length = sequence_length(bytes, i);
    if (length == 0 || !plain(byte_at(bytes, i))) return true;
    i += length;
  }
  return false;
}

std::string escape(const std::string& bytes) {
  std::string out;
  for (std::size_t i = 0; i < bytes.size();) {
    const std::size_t length = sequence_length(bytes, i);
    if (length == 0 || !plain(byte_at(bytes, i))) {
      out += hex_byte(byte_at(bytes, i++));
    } else if (bytes[i] == '\\') {
      out += "\\\\";
      ++i;
    } else {
      // A line that would read as a heading starts with an escaped '='.
      const bool heading = bytes.compare(i, 4, "=== ") == 0 && (out.empty() || out.back() == '\n');
      out += heading ? "\\x3d" : bytes.substr(i, length);
      i += length;
    }
  }
  if (!out.empty() && out.back() != '\n') out += "\\\n";
  return out;
}

std::string unescape(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      out += text[i];
      continue;
    }
    const char next = i + 1 < text.size() ? text[i + 1] : '\0';
    if (next == 'x' && i + 3 < text.size()) {
      out += static_cast<char>(hex_value(text[i + 2]) * 16 + hex_value(text[i + 3]));
      i += 3;
    } else if (next == '\\') {
      out += '\\';
      ++i;
    } else if (next == '\n') {
      ++i;
    } else {
      throw CaseError("expected \\\\, \\xNN or the end of the line after a backslash in an escaped section");
    }
  }
  return out;
}

}  // namespace cases
