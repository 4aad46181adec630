#include "render/plan/view.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/page/symbols.h"

namespace teetally {
namespace {

constexpr double kFieldMargin = 62;    // for labels beside the garden
constexpr double kTallestField = 900;  // with the key below it an upright page
constexpr double kLowestField = 250;
constexpr double kGridSize = 9;
constexpr std::int64_t kGridLines = 8;  // about so many across

struct Extent {
  Length west{INT64_MAX}, east{INT64_MIN}, south{INT64_MAX}, north{INT64_MIN};
  void add(Length e, Length n) {
    west = std::min(west, e);
    east = std::max(east, e);
    south = std::min(south, n);
    north = std::max(north, n);
  }
};

Extent extent_of(const PlanSubject& subject) {
  Extent extent;
  const Garden& garden = subject.sized.garden;
  extent.add(garden.source.east, garden.source.north);
  for (const Node& node : garden.nodes) extent.add(node.at.east, node.at.north);
  for (const Bed& bed : subject.site.beds) {
    extent.add(bed.corner.east, bed.corner.north);
    extent.add(bed.corner.east + bed.east_west, bed.corner.north + bed.north_south);
  }
  return extent;
}

Length grid_step(Length across, UnitSystem units) {
  const Length one = units == UnitSystem::us ? feet(1) : Length{1000};
  for (std::int64_t decade = 1;; decade *= 10) {
    for (const std::int64_t step : {1, 2, 5}) {
      const Length grid = one * (step * decade);
      if (grid.tenths_mm * kGridLines >= across.tenths_mm) return grid;
    }
  }
}

std::int64_t first_multiple(Length from, Length step) {
  const std::int64_t whole = from.tenths_mm / step.tenths_mm;
  return whole * step.tenths_mm < from.tenths_mm ? whole + 1 : whole;
}

}  // namespace

PlanSpot GroundView::spot(const Point& at) const {
  return {field.left + span(at.east - west), field.bottom - span(at.north - south)};
}

GroundView view_ground(const PlanSubject& subject, UnitSystem units, double top) {
  const Extent extent = extent_of(subject);
  const Length wide = std::max(extent.east - extent.west, Length{1000});
  const Length high = std::max(extent.north - extent.south, Length{1000});
  const double room_x = kSheetWidth - 2 * (kSheetMargin + kFieldMargin);
  const double room_y = kTallestField - 2 * kFieldMargin;
  GroundView view;
  view.per_tenth_mm =
      std::min(room_x / static_cast<double>(wide.tenths_mm), room_y / static_cast<double>(high.tenths_mm));
  const double height = std::max(kLowestField, view.span(high) + 2 * kFieldMargin);
  view.field = {kSheetMargin, top, kSheetWidth - kSheetMargin, top + height};
  const double left = (view.field.width() - view.span(wide)) / 2, below = (height - view.span(high)) / 2;
  view.west = extent.west - Length{static_cast<std::int64_t>(left / view.per_tenth_mm)};
  view.south = extent.south - Length{static_cast<std::int64_t>(below / view.per_tenth_mm)};
  view.east_end = view.west + Length{static_cast<std::int64_t>(view.field.width() / view.per_tenth_mm)};
  view.north_end = view.south + Length{static_cast<std::int64_t>(height / view.per_tenth_mm)};
  view.grid = grid_step(view.east_end - view.west, units);
  return view;
}

std::string short_length(Length length, UnitSystem units) {
  if (length.tenths_mm < 0) return "-" + short_length(-length, units);
  const std::int64_t step = units == UnitSystem::metric ? 100 : 254;
  const std::int64_t steps = (length.tenths_mm + step / 2) / step;
  return steps == 0 ? "0" : to_text(Length{steps * step}, units);
}

std::string grid_elements(const GroundView& view, UnitSystem units) {
  std::string out = fmt::format("<g stroke=\"{}\" stroke-width=\"1\">\n", plan_ink::kGrid);
  std::string words = fmt::format("<g fill=\"{}\" font-size=\"{}\">\n", plan_ink::kQuiet, sheet_number(kGridSize));
  const Box& field = view.field;
  for (std::int64_t n = first_multiple(view.west, view.grid); view.grid * n < view.east_end; ++n) {
    const double x = view.spot({view.grid * n, view.south, {}}).x;
    out += line_element({{x, field.top}, {x, field.bottom}}, "");
    const std::string east = short_length(view.grid * n, units);
    if (x + 3 + text_width(east, kGridSize) <= field.right) words += text_element({x + 3, field.bottom - 4}, east, "");
  }
  for (std::int64_t n = first_multiple(view.south, view.grid); view.grid * n < view.north_end; ++n) {
    const double y = view.spot({view.west, view.grid * n, {}}).y;
    out += line_element({{field.left, y}, {field.right, y}}, "");
    if (y < field.bottom - 16) words += text_element({field.left + 4, y - 3}, short_length(view.grid * n, units), "");
  }
  out += box_element(field, "fill=\"none\"") + "</g>\n";
  return out + words + "</g>\n";
}

std::string scale_bar(const GroundView& view, UnitSystem units, PlanSpot at) {
  const double one = view.span(view.grid);
  std::string out = fmt::format("<g stroke=\"{}\" stroke-width=\"1\" fill=\"{}\">\n", plan_ink::kInk, plan_ink::kInk);
  out += box_element({at.x, at.y, at.x + one, at.y + 5}, "");
  out += box_element({at.x + one, at.y, at.x + 2 * one, at.y + 5}, "fill=\"none\"");
  out += "</g>\n<g font-size=\"10\">\n";
  for (int n = 0; n <= 2; ++n) {
    out += text_element({at.x + n * one, at.y + 17}, n == 0 ? "0" : short_length(view.grid * n, units),
                        n == 0 ? "" : "text-anchor=\"middle\"");
  }
  return out + "</g>\n";
}

std::string north_arrow(PlanSpot at) {
  return fmt::format("<g stroke=\"{}\" stroke-width=\"1.2\">\n", plan_ink::kInk) +
         shape_element(at, "M0 -16L7 12L0 7L-7 12Z", fmt::format("fill=\"{}\"", plan_ink::kPaper)) +
         shape_element(at, "M0 -16L7 12L0 7Z", fmt::format("fill=\"{}\"", plan_ink::kInk)) + "</g>\n" +
         text_element({at.x, at.y + 26}, "N", "font-size=\"12\" font-weight=\"700\" text-anchor=\"middle\"");
}

}  // namespace teetally
