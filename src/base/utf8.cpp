#include "base/utf8.h"

#include <algorithm>
#include <iterator>

namespace teetally {
namespace {

struct Range {
  char32_t first, last;
};

// Combining marks and other characters of no width (Unicode 15 general categories Mn and Me, the blocks met in
// Latin, Greek, Cyrillic, Hebrew, Arabic, Indic and Thai text, and the joiners).
constexpr Range kZeroWide[] = {
    {0x0300, 0x036F},   {0x0483, 0x0489},  {0x0591, 0x05BD}, {0x05BF, 0x05BF}, {0x05C1, 0x05C2}, {0x05C4, 0x05C5},
    {0x0610, 0x061A},   {0x064B, 0x065F},  {0x0670, 0x0670}, {0x06D6, 0x06DC}, {0x06DF, 0x06E4}, {0x06E7, 0x06E8},
    {0x06EA, 0x06ED},   {0x0901, 0x0902},  {0x093C, 0x093C}, {0x0941, 0x0948}, {0x094D, 0x094D}, {0x0E31, 0x0E31},
    {0x0E34, 0x0E3A},   {0x0E47, 0x0E4E},  {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F}, {0x2060, 0x2064},
    {0x20D0, 0x20FF},   {0x302A, 0x302D},  {0x3099, 0x309A}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF},
    {0x1F3FB, 0x1F3FF}, {0xE0100, 0xE01EF}};

// East Asian Wide and Fullwidth (Unicode standard annex 11), merged into blocks.
constexpr Range kDoubleWide[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x23E9, 0x23EC},   {0x2614, 0x2615},   {0x2648, 0x2653},
    {0x26AA, 0x26AB},   {0x26BD, 0x26BE},   {0x2705, 0x2705},   {0x274C, 0x274C},   {0x2753, 0x2755},
    {0x2757, 0x2757},   {0x2795, 0x2797},   {0x2B1B, 0x2B1C},   {0x2B50, 0x2B50},   {0x2E80, 0x303E},
    {0x3041, 0x33FF},   {0x3400, 0x4DBF},   {0x4E00, 0x9FFF},   {0xA000, 0xA4CF},   {0xA960, 0xA97F},
    {0xAC00, 0xD7A3},   {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},   {0xFFE0, 0xFFE6},
    {0x16FE0, 0x18CFF}, {0x1B000, 0x1B2FF}, {0x1F300, 0x1F320}, {0x1F32D, 0x1F335}, {0x1F337, 0x1F37C},
    {0x1F37E, 0x1F393}, {0x1F3A0, 0x1F3CA}, {0x1F3E0, 0x1F3F0}, {0x1F3F8, 0x1F43E}, {0x1F440, 0x1F440},
    {0x1F442, 0x1F4FC}, {0x1F4FF, 0x1F53D}, {0x1F550, 0x1F567}, {0x1F5FB, 0x1F64F}, {0x1F680, 0x1F6C5},
    {0x1F6D0, 0x1F6D2}, {0x1F6EB, 0x1F6EC}, {0x1F7E0, 0x1F7EB}, {0x1F90C, 0x1F9FF}, {0x1FA70, 0x1FAFF},
    {0x20000, 0x3FFFD}};

template <std::size_t N>
bool lies_in(const Range (&ranges)[N], char32_t code) {
  const auto after = std::upper_bound(std::begin(ranges), std::end(ranges), code,
                                      [](char32_t c, const Range& range) { return c < range.first; });
  return after != std::begin(ranges) && code <= std::prev(after)->last;
}

bool is_continuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }

// The length that the first byte promises, 0 when no character starts with it.
std::size_t promised_bytes(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead <= 0xDF) return 2;
  if (lead >= 0xE0 && lead <= 0xEF) return 3;
  if (lead >= 0xF0 && lead <= 0xF4) return 4;
  return 0;
}

// Overlong forms, surrogates and codes past the end of Unicode are not characters.
bool is_proper(char32_t code, std::size_t bytes) {
  if (bytes == 3) return code >= 0x800 && (code < 0xD800 || code > 0xDFFF);
  if (bytes == 4) return code >= 0x10000 && code <= 0x10FFFF;
  return true;
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
  const auto lead = static_cast<unsigned char>(text[at]);
  const std::size_t bytes = promised_bytes(lead);
  const Character bad{lead, 1, false};
  if (bytes == 0 || at + bytes > text.size()) return bad;
  if (bytes == 1) return {lead, 1, true};
  char32_t code = lead & (0x7Fu >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if (!is_continuation(text[at + i])) return bad;
    code = (code << 6) | (static_cast<unsigned char>(text[at + i]) & 0x3Fu);
  }
  if (!is_proper(code, bytes)) return bad;
  return {code, bytes, true};
}

int character_count(std::string_view text) {
  int count = 0;
  for (std::size_t at = 0; at < text.size(); at += character_at(text, at).bytes) ++count;
  return count;
}

int character_width(char32_t code) {
  if (code < 0x300) return is_control(code) ? 0 : 1;
  if (lies_in(kZeroWide, code)) return 0;
  return lies_in(kDoubleWide, code) ? 2 : 1;
}

bool is_control(char32_t code) {
  if (code < 0x20 || (code >= 0x7F && code < 0xA0)) return true;
  // Line separators, direction overrides and the byte-order mark change how a line reads without being seen.
  return code == 0x2028 || code == 0x2029 || (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) ||
         code == 0xFEFF;
}

}  // namespace teetally
