#pragma once
// Points, boxes and lines on the sheet, and their SVG text. Sheet units: 800 across, x to the right, y down.
#include <string>
#include <string_view>
#include <vector>

namespace teetally {

struct PlanSpot {
  double x = 0, y = 0;
};
struct Stroke {
  PlanSpot from, to;
};
struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
  PlanSpot middle() const { return {(left + right) / 2, (top + bottom) / 2}; }
};
bool overlap(const Box& a, const Box& b);
bool holds(const Box& outer, const Box& inner);
double length_of(const Stroke& stroke);
double length_inside(const Stroke& stroke, const Box& box);  // of the part of the stroke that runs through the box
double distance(PlanSpot a, PlanSpot b);

// For text and for attributes in double quotes, of HTML and of SVG; line ends stay, other control characters and bad
// bytes become visible.
std::string escape_markup(std::string_view text);
std::string sheet_number(double value);  // at most one decimal, never "-0"
// How wide the text is at most, near enough for keeping labels apart: no font is measured.
double text_width(std::string_view text, double size);
// Words of `text` in lines of at most `width`; a longer word goes on in the next line.
std::vector<std::string> wrap_text(std::string_view text, double size, double width);

// Elements as text, each with its line end. `look` is further attributes.
std::string line_element(const Stroke& stroke, std::string_view look);
std::string box_element(const Box& box, std::string_view look);
std::string circle_element(PlanSpot middle, double radius, std::string_view look);
std::string text_element(PlanSpot at, std::string_view text, std::string_view look);
std::string shape_element(PlanSpot at, std::string_view path, std::string_view look);  // path data around 0,0

}  // namespace teetally
