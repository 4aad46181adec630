#include "render/pictures.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/phrases.h"
#include "render/plan_shapes.h"
#include "render/plan_symbols.h"

namespace teetally {
namespace {

constexpr double kWidth = 640;
constexpr const char* kBarInk = "#1f5c57";

std::string opened(double height, const std::string& title, const std::string& description) {
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\" role=\"img\" "
      "font-family=\"Helvetica, Arial, sans-serif\" font-size=\"13\" fill=\"{2}\">\n<title>{3}</title>\n"
      "<desc>{4}</desc>\n",
      sheet_number(kWidth), sheet_number(height), plan_ink::kInk, escape_markup(title), escape_markup(description));
}

struct Bar {
  std::string what;
  Money amount;
};

std::vector<Bar> bars_of(const std::vector<SupplierOrder>& orders) {
  OrderCost sum{};
  for (const SupplierOrder& order : orders) {
    sum.goods += order.cost.goods;
    sum.discount += order.cost.discount;
    sum.shipping += order.cost.shipping;
    sum.small_order_fee += order.cost.small_order_fee;
    sum.tax += order.cost.tax;
  }
  std::vector<Bar> bars = {{"goods", sum.goods},
                           {"discount", -sum.discount},
                           {"shipping", sum.shipping},
                           {"small-order fees", sum.small_order_fee},
                           {"tax", sum.tax}};
  std::erase_if(bars, [](const Bar& bar) { return bar.amount.minor == 0; });
  return bars;
}

struct Curve {
  double most_pa = 0;
  std::int64_t most_along = 0;
};

Curve extent_of(const std::vector<PathPoint>& path) {
  Curve curve;
  for (const PathPoint& point : path) {
    curve.most_pa = std::max(curve.most_pa, point.pa);
    curve.most_along = std::max(curve.most_along, point.along.tenths_mm);
  }
  return curve;
}

}  // namespace

std::string cost_picture(const std::vector<SupplierOrder>& orders, const Currency& currency) {
  const std::vector<Bar> bars = bars_of(orders);
  if (bars.empty()) return {};
  constexpr double kLeft = 130, kRight = 540, kStep = 26;
  std::int64_t most = 1;
  std::vector<std::string> words;
  for (const Bar& bar : bars) {
    most = std::max(most, std::abs(bar.amount.minor));
    words.push_back(bar.what + " " + to_text(bar.amount, currency));
  }
  std::string out = opened(kStep * static_cast<double>(bars.size()) + 4, "What the total is made of",
                           "In " + currency.code + ": " + listed(words) + ".");
  double top = 4;
  for (const Bar& bar : bars) {
    const double length =
        (kRight - kLeft) * static_cast<double>(std::abs(bar.amount.minor)) / static_cast<double>(most);
    const Box box{kLeft, top, kLeft + std::max(length, 1.0), top + 16};
    // What is taken off is hollow.
    out += box_element(box, bar.amount.minor < 0 ? fmt::format("fill=\"none\" stroke=\"{}\"", kBarInk)
                                                 : fmt::format("fill=\"{0}\" stroke=\"{0}\"", kBarInk));
    out += text_element({kLeft - 10, top + 13}, bar.what, "text-anchor=\"end\"");
    out += text_element({kWidth, top + 13}, to_text(bar.amount, currency), "text-anchor=\"end\"");
    top += kStep;
  }
  return out + "</svg>\n";
}

std::string pressure_picture(const ZoneHydraulics& zone, const std::string& name, UnitSystem units) {
  const std::vector<PathPoint>& path = zone.worst_path;
  const Curve extent = extent_of(path);
  if (path.size() < 2 || extent.most_pa <= 0 || extent.most_along <= 0) return {};
  const Box field{70, 16, kWidth - 20, 190};
  const auto spot = [&](const PathPoint& point) {
    return Spot{field.left +
                    field.width() * static_cast<double>(point.along.tenths_mm) / static_cast<double>(extent.most_along),
                field.bottom - field.height() * std::max(point.pa, 0.0) / extent.most_pa};
  };
  const PathPoint &start = path.front(), &end = path.back();
  const std::string from = pressure_phrase(start.pa, units), to = pressure_phrase(end.pa, units);
  std::string out = opened(236, "Pressure on the way to the outlet that fares worst, zone " + name,
                           fmt::format("It starts with {} and ends with {} after {}, at {}.", from, to,
                                       to_text(end.along, units), end.where));
  out += line_element({{field.left, field.bottom}, {field.right, field.bottom}},
                      fmt::format("stroke=\"{}\"", plan_ink::kQuiet));
  out += line_element({{field.left, field.top}, {field.left, field.bottom}},
                      fmt::format("stroke=\"{}\"", plan_ink::kQuiet));
  std::string points;
  for (const PathPoint& point : path) {
    const Spot at = spot(point);
    points += (points.empty() ? "" : " ") + sheet_number(at.x) + "," + sheet_number(at.y);
  }
  out += fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\"/>\n", points, kBarInk);
  for (const PathPoint& point : path) out += circle_element(spot(point), 3, fmt::format("fill=\"{}\"", kBarInk));
  out += text_element({field.left - 8, spot(start).y + 5}, from, "text-anchor=\"end\"");
  out += text_element({field.right, spot(end).y - 10}, to, "text-anchor=\"end\"");
  out += text_element({field.left - 8, field.bottom + 5}, "0", "text-anchor=\"end\"");
  out += text_element({field.left, field.bottom + 18}, start.where, "");
  out += text_element({field.right, field.bottom + 18}, to_text(end.along, units) + " along the tubing",
                      "text-anchor=\"end\"");
  out += text_element({field.right, field.bottom + 36}, end.where, "text-anchor=\"end\"");
  return out + "</svg>\n";
}

}  // namespace teetally
