#include "render/page/pictures.h"

#include <fmt/format.h>

#include <algorithm>

#include "render/page/shapes.h"
#include "render/page/symbols.h"
#include "render/phrases.h"

namespace teetally {
namespace {

constexpr double kBarHeight = 14, kPictureHeight = 190;
constexpr double kWordsWide = 0.22;  // of a pressure, on a phone
constexpr std::size_t kMostPathPoints = 6;

// A share of the width, in percent.
std::string percent(double part) { return fmt::format("{:.2f}%", part * 100); }

double part_of(Money amount, Money whole) {
  return whole.minor <= 0 ? 0 : static_cast<double>(amount.minor) / static_cast<double>(whole.minor);
}

std::string opened(std::string_view shape, double height, const std::string& title) {
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"{}\" width=\"100%\" height=\"{}\" role=\"img\">"
      "<title>{}</title>",
      shape, sheet_number(height), escape_markup(title));
}

enum class Part { goods, delivery, tax };

std::string bar_part(Part part, double from, double length) {
  const auto bar = [&](double top, double height, std::string_view fill) {
    return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\" stroke=\"{}\"/>", percent(from),
                       sheet_number(top), percent(length), sheet_number(height), fill, plan_ink::kRow);
  };
  switch (part) {
    case Part::goods:
      return bar(1, kBarHeight - 2, plan_ink::kRow);
    case Part::delivery:
      return bar(1, kBarHeight - 2, "none");
    case Part::tax:
      return bar(kBarHeight / 2, kBarHeight / 2 - 1, plan_ink::kRow);
  }
  return {};
}

// Straight from point to point, each end a share of the field.
std::string stretch(double x1, double y1, double x2, double y2, std::string_view look) {
  return fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" {}/>", percent(x1), sheet_number(y1), percent(x2),
                     sheet_number(y2), look);
}

std::string words_at(double x, double y, std::string_view anchor, const std::string& words) {
  return fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\">{}</text>", percent(x), sheet_number(y), anchor,
                     escape_markup(words));
}

}  // namespace

OrderCost cost_of(const Purchase& purchase) {
  OrderCost sum{};
  for (const SupplierOrder& order : purchase.orders) {
    sum.goods += order.cost.goods;
    sum.discount += order.cost.discount;
    sum.shipping += order.cost.shipping;
    sum.small_order_fee += order.cost.small_order_fee;
    sum.tax += order.cost.tax;
    sum.total += order.cost.total;
  }
  return sum;
}

std::string cost_bar(const OrderCost& cost, Money most, const Currency& currency) {
  const Money goods = cost.goods - cost.discount, delivery = cost.shipping + cost.small_order_fee;
  std::string out =
      opened("bar", kBarHeight,
             fmt::format("{} {}: goods {}, delivery {}, tax {}", currency.code, to_text(cost.total, currency),
                         to_text(goods, currency), to_text(delivery, currency), to_text(cost.tax, currency)));
  double from = 0;
  for (const auto& [part, amount] :
       {std::pair(Part::goods, goods), {Part::delivery, delivery}, {Part::tax, cost.tax}}) {
    if (amount.minor <= 0) continue;
    out += bar_part(part, from, part_of(amount, most));
    from += part_of(amount, most);
  }
  return out + "</svg>";
}

std::vector<BarPart> cost_bar_parts() {
  const auto sample = [](Part part) {
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"sample\" width=\"28\" height=\"{}\" "
        "aria-hidden=\"true\">{}</svg>",
        sheet_number(kBarHeight), bar_part(part, 0.02, 0.96));
  };
  return {{sample(Part::goods), "goods, less discount"},
          {sample(Part::delivery), "shipping and fees"},
          {sample(Part::tax), "tax"}};
}

std::string amount_bar(Money amount, Money most, const Currency& currency) {
  return opened("bar", kBarHeight, currency.code + " " + to_text(amount, currency)) +
         bar_part(Part::goods, 0, part_of(amount, most)) + "</svg>";
}

std::string pressure_picture(const ZoneHydraulics& zone, UnitSystem units) {
  const std::vector<PathPoint>& path = zone.worst_path;
  double most_pa = 0;
  std::int64_t most_along = 0;
  for (const PathPoint& point : path) {
    most_pa = std::max(most_pa, point.pa);
    most_along = std::max(most_along, point.along.tenths_mm);
  }
  if (path.size() < 2 || most_pa <= 0 || most_along <= 0) return {};
  const double top = 22, foot = kPictureHeight - 22;
  const auto x = [&](const PathPoint& p) {
    return 0.01 + 0.98 * static_cast<double>(p.along.tenths_mm) / static_cast<double>(most_along);
  };
  const auto y = [&](const PathPoint& p) { return foot - (foot - top) * std::max(p.pa, 0.0) / most_pa; };
  const std::string from = pressure_phrase(path.front().pa, units), to = pressure_phrase(path.back().pa, units);
  const std::string along = to_text(path.back().along, units);
  std::string out = opened("curve", kPictureHeight,
                           fmt::format("Pressure along the way: {} at its start, {} after {}", from, to, along));
  const std::string axis = fmt::format("stroke=\"{}\" stroke-width=\"1\"", plan_ink::kSide);
  const std::string curve =
      fmt::format("stroke=\"{}\" stroke-width=\"2.5\" stroke-linecap=\"round\"", plan_ink::kSupply);
  out += stretch(0.01, foot, 0.99, foot, axis) + stretch(0.01, top, 0.01, foot, axis);
  for (std::size_t i = 1; i < path.size(); ++i) {
    out += stretch(x(path[i - 1]), y(path[i - 1]), x(path[i]), y(path[i]), curve);
  }
  for (const PathPoint* point : points_to_show(path)) {
    out += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"3.5\" fill=\"{}\"/>", percent(x(*point)),
                       sheet_number(y(*point)), plan_ink::kSupply);
  }
  // Above whatever the curve does below the words.
  const auto above = [&](double left, double right) {
    double highest = foot;
    for (std::size_t i = 1; i < path.size(); ++i) {
      const double x1 = x(path[i - 1]), x2 = x(path[i]), y1 = y(path[i - 1]), y2 = y(path[i]);
      if (x2 < left || x1 > right) continue;
      for (const double at : {std::max(left, x1), std::min(right, x2)}) {
        highest = std::min(highest, x2 > x1 ? y1 + (y2 - y1) * (at - x1) / (x2 - x1) : std::min(y1, y2));
      }
    }
    return highest - 8;
  };
  out += words_at(0.02, above(0, kWordsWide), "start", from) + words_at(0.99, above(1 - kWordsWide, 1), "end", to);
  out += words_at(0.01, kPictureHeight - 6, "start", "0") + words_at(0.99, kPictureHeight - 6, "end", along);
  return out + "</svg>";
}

std::vector<const PathPoint*> points_to_show(const std::vector<PathPoint>& path) {
  std::vector<std::size_t> order;
  for (std::size_t i = 1; i + 1 < path.size(); ++i) {
    if (!path[i].where.empty()) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return path[a - 1].pa - path[a].pa > path[b - 1].pa - path[b].pa;
  });
  if (order.size() > kMostPathPoints - 2) order.resize(kMostPathPoints - 2);
  order.push_back(0);
  order.push_back(path.size() - 1);
  std::sort(order.begin(), order.end());
  std::vector<const PathPoint*> points;
  points.reserve(order.size());
  for (const std::size_t i : order) points.push_back(&path[i]);
  return points;
}

}  // namespace teetally
