#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "render/check/parts.h"
#include "render/page/pictures.h"
#include "render/phrases.h"

namespace teetally {
namespace {

constexpr double kBar = 24;  // columns of a bar at the path's highest pressure

std::string demand_phrase(const ZoneHydraulics& zone, const Limits& limits, UnitSystem units) {
  std::string text = flow_phrase(zone.demand_m3_per_s, units);
  if (zone.tested_m3_per_s <= 0) return text + "; what the tap gives is not known (no bucket test, no flow stated)";
  return text + fmt::format(" of {}: {} tested, {} kept in reserve ({})", flow_phrase(zone.available_m3_per_s, units),
                            flow_phrase(zone.tested_m3_per_s, units), share_phrase(limits.margin),
                            limits.margin_origin);
}

std::string pressure_words(const ZoneHydraulics& zone, UnitSystem units) {
  return fmt::format("{} after the head{}; {} to {} at the outlets", pressure_phrase(zone.start_pa, units),
                     zone.supply_limits ? ", all that the tap leaves" : "", pressure_phrase(zone.lowest_pa, units),
                     pressure_phrase(zone.highest_pa, units));
}

std::string evenness_phrase(const ZoneHydraulics& zone, const Limits& limits) {
  const std::string least = share_phrase(zone.least_part), most = share_phrase(zone.most_part);
  return fmt::format(
      "flow variation {} (limit {}, {}); emission uniformity {:.0f} %, {}; outlets give {} of their "
      "rated flow",
      share_phrase(zone.variation), share_phrase(limits.variation), limits.variation_origin, zone.uniformity_percent,
      zone.uniformity_class, least == most ? least : least + " to " + most);
}

TextTable zone_figures(const ZoneHydraulics& zone, const SizedGarden& sized, UnitSystem units) {
  const Limits& limits = sized.limits;
  TextTable table{{{"", Column::Side::left}, {"", Column::Side::left, true}}, {}};
  const auto add = [&](const char* what, const std::string& text) { table.rows.push_back({what, printable(text)}); };
  add("demand", demand_phrase(zone, limits, units));
  if (zone.most_m3_per_s > 0 && zone.demand_m3_per_s > 0)
    add("largest zone", flow_phrase(zone.most_m3_per_s, units) + " would still pass here");
  add("pressure", pressure_words(zone, units));
  add("regulator", zone.regulator_why);
  add("evenness", evenness_phrase(zone, limits));
  add("fastest", fmt::format("{} in lines and headers (limit {}, {})", velocity_phrase(zone.fastest_m_per_s, units),
                             velocity_phrase(limits.velocity_m_per_s, units), limits.velocity_origin));
  return table;
}

const Run& laid(const SizedGarden& sized, const RowHydraulics& row) {
  return sized.garden.runs[static_cast<std::size_t>(row.run)];
}

// The rows of the zone; unless all are asked for, only the least even one of each element.
std::vector<const RowHydraulics*> rows_to_show(const CheckView& view, const ZoneHydraulics& zone, bool& some_left) {
  const Garden& garden = view.sized.garden;
  std::vector<const RowHydraulics*> shown;
  for (const RowHydraulics& row : view.sized.rows) {
    const int element = laid(view.sized, row).element;
    if (garden.elements[static_cast<std::size_t>(element)].zone != zone.zone) continue;
    const auto same = std::find_if(shown.begin(), shown.end(), [&](const RowHydraulics* other) {
      return laid(view.sized, *other).element == element;
    });
    if (view.rows || same == shown.end()) {
      shown.push_back(&row);
      continue;
    }
    some_left = true;
    if (row.variation > (*same)->variation + 5e-3) *same = &row;
  }
  return shown;
}

std::string rows_text(const CheckView& view, const ZoneHydraulics& zone, const Page& page) {
  bool some_left = false;
  const std::vector<const RowHydraulics*> rows = rows_to_show(view, zone, some_left);
  if (rows.empty()) return {};
  TextTable table{{{some_left ? "Least even row" : "Row", Column::Side::left, true},
                   {"Outlets", Column::Side::right},
                   {"First", Column::Side::right},
                   {"Last", Column::Side::right},
                   {"Differ", Column::Side::right},
                   {"Long", Column::Side::right},
                   {"At most", Column::Side::right}},
                  {}};
  for (const RowHydraulics* row : rows) {
    const bool any_length = row->longest_even.tenths_mm <= 0;
    table.rows.push_back({printable(laid(view.sized, *row).name), std::to_string(row->outlets),
                          flow_phrase(row->first_m3_per_s, page.units), flow_phrase(row->last_m3_per_s, page.units),
                          share_phrase(row->variation), to_text(row->length, page.units),
                          any_length ? "-" : to_text(row->longest_even, page.units)});
  }
  return "\n" + laid_out(table, page.width, 2);
}

std::string path_text(const ZoneHydraulics& zone, const Page& page) {
  if (zone.worst_path.size() < 2) return {};
  double highest = 0;
  for (const PathPoint& point : zone.worst_path) highest = std::max(highest, point.pa);
  if (highest <= 0) return {};
  TextTable table{{{"Way to the outlet that fares worst", Column::Side::left, true},
                   {"Along", Column::Side::right},
                   {"Up", Column::Side::right},
                   {"Pressure", Column::Side::right},
                   {"", Column::Side::left}},
                  {}};
  for (const PathPoint* point : points_to_show(zone.worst_path)) {
    const int bar = static_cast<int>(std::lround(kBar * std::max(0.0, point->pa) / highest));
    table.rows.push_back({printable(point->where), to_text(point->along, page.units), to_text(point->up, page.units),
                          pressure_phrase(point->pa, page.units), std::string(static_cast<std::size_t>(bar), '=')});
  }
  return "\n" + laid_out(table, page.width, 2);
}

}  // namespace

std::string velocity_phrase(double m_per_s, UnitSystem units) {
  return units == UnitSystem::metric ? fmt::format("{:.2f} m/s", m_per_s)
                                     : fmt::format("{:.1f} ft/s", m_per_s / 0.3048);
}

std::string share_phrase(double part) { return fmt::format("{:.0f} %", part * 100); }

std::string zone_section(const CheckView& view, const ZoneHydraulics& zone, const Page& page) {
  const Garden& garden = view.sized.garden;
  const std::string name = zone.zone >= 0 ? printable(garden.zones[static_cast<std::size_t>(zone.zone)].name) : "";
  const bool alone = name.empty() || garden.zones.size() == 1;
  std::string out = heading(alone ? "The zone" : "Zone " + quoted(name));
  if (!alone) out += wrapped(verdict_sentence(zone.verdict, zone.words), page.width, 2, 2);
  if (zone.rated_m3_per_s <= 0) return out;
  out += laid_out(zone_figures(zone, view.sized, page.units), page.width, 2);
  return out + rows_text(view, zone, page) + path_text(zone, page);
}

}  // namespace teetally
