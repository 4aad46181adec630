#include "render/page/shapes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "teetally/base.h"

namespace teetally {
namespace {

// Widest usual letters of a plain sans-serif face, in parts of its size; a wide one counts as two columns.
constexpr double kColumnWidth = 0.56;

std::string xy(PlanSpot at, std::string_view x, std::string_view y) {
  return fmt::format("{}=\"{}\" {}=\"{}\"", x, sheet_number(at.x), y, sheet_number(at.y));
}

void escape_line(std::string_view text, std::string& out) {
  for (const char c : printable(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
}

// So many bytes of the word are no wider than that, but always a whole character.
std::size_t that_fits(std::string_view word, double size, double width) {
  const auto next = [&](std::size_t at) {
    do ++at;
    while (at < word.size() && (static_cast<unsigned char>(word[at]) & 0xC0U) == 0x80U);
    return at;
  };
  std::size_t end = next(0);
  while (end < word.size() && text_width(word.substr(0, next(end)), size) <= width) end = next(end);
  return end;
}

}  // namespace

bool overlap(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

bool holds(const Box& outer, const Box& inner) {
  return outer.left <= inner.left && inner.right <= outer.right && outer.top <= inner.top &&
         inner.bottom <= outer.bottom;
}

double distance(PlanSpot a, PlanSpot b) { return std::hypot(a.x - b.x, a.y - b.y); }

double length_of(const Stroke& stroke) { return distance(stroke.from, stroke.to); }

// Clips the stroke by the four sides (Liang and Barsky, ACM Transactions on Graphics 3(1), 1984).
double length_inside(const Stroke& stroke, const Box& box) {
  const double dx = stroke.to.x - stroke.from.x, dy = stroke.to.y - stroke.from.y;
  const double steps[4] = {-dx, dx, -dy, dy};
  const double gaps[4] = {stroke.from.x - box.left, box.right - stroke.from.x, stroke.from.y - box.top,
                          box.bottom - stroke.from.y};
  double enter = 0, leave = 1;
  for (int side = 0; side < 4; ++side) {
    if (steps[side] == 0) {
      if (gaps[side] < 0) return 0;
    } else if (steps[side] < 0) {
      enter = std::max(enter, gaps[side] / steps[side]);
    } else {
      leave = std::min(leave, gaps[side] / steps[side]);
    }
  }
  return leave > enter ? (leave - enter) * length_of(stroke) : 0;
}

std::string escape_markup(std::string_view text) {
  std::string out;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    escape_line(text.substr(from, end - from), out);
    if (end < text.size()) out += '\n';
    from = end + 1;
  }
  return out;
}

std::string sheet_number(double value) {
  const auto tenths = static_cast<long long>(std::llround(value * 10));
  std::string out = fmt::format("{}{}", tenths < 0 ? "-" : "", std::abs(tenths) / 10);
  if (tenths % 10 != 0) out += fmt::format(".{}", std::abs(tenths) % 10);
  return out;
}

double text_width(std::string_view text, double size) { return display_width(text) * size * kColumnWidth; }

std::vector<std::string> wrap_text(std::string_view text, double size, double width) {
  std::vector<std::string> lines = {""};
  while (!text.empty()) {
    const std::size_t space = std::min(text.find(' '), text.size());
    std::string_view word = text.substr(0, space);
    text.remove_prefix(std::min(space + 1, text.size()));
    while (text_width(word, size) > width) {
      const std::size_t part = that_fits(word, size, width);
      if (part == word.size()) break;
      if (!lines.back().empty()) lines.emplace_back();
      lines.back() = word.substr(0, part);
      word.remove_prefix(part);
    }
    std::string& line = lines.back();
    const std::string longer = line.empty() ? std::string(word) : line + " " + std::string(word);
    if (line.empty() || text_width(longer, size) <= width) {
      line = longer;
    } else {
      lines.emplace_back(word);
    }
  }
  return lines;
}

std::string line_element(const Stroke& stroke, std::string_view look) {
  return fmt::format("<line {} {} {}/>\n", xy(stroke.from, "x1", "y1"), xy(stroke.to, "x2", "y2"), look);
}

std::string box_element(const Box& box, std::string_view look) {
  return fmt::format("<rect {} width=\"{}\" height=\"{}\" {}/>\n", xy({box.left, box.top}, "x", "y"),
                     sheet_number(box.width()), sheet_number(box.height()), look);
}

std::string circle_element(PlanSpot middle, double radius, std::string_view look) {
  return fmt::format("<circle {} r=\"{}\" {}/>\n", xy(middle, "cx", "cy"), sheet_number(radius), look);
}

std::string text_element(PlanSpot at, std::string_view text, std::string_view look) {
  return fmt::format("<text {}{}{}>{}</text>\n", xy(at, "x", "y"), look.empty() ? "" : " ", look, escape_markup(text));
}

std::string shape_element(PlanSpot at, std::string_view path, std::string_view look) {
  return fmt::format("<path transform=\"translate({} {})\" d=\"{}\" {}/>\n", sheet_number(at.x), sheet_number(at.y),
                     path, look);
}

}  // namespace teetally
