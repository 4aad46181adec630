#include <algorithm>

#include "render/phrases.h"

namespace teetally {
namespace {

std::string element_counts(const Garden& garden) {
  std::vector<std::pair<std::string, std::int64_t>> counts;
  for (const Element& element : garden.elements) {
    if (element.kind == "source") continue;
    const auto same =
        std::find_if(counts.begin(), counts.end(), [&](const auto& c) { return c.first == element.kind; });
    if (same == counts.end()) {
      counts.emplace_back(element.kind, 1);
    } else {
      ++same->second;
    }
  }
  std::vector<std::string> words;
  for (const auto& [kind, n] : counts) words.push_back(counted(n, kind));
  return listed(words);
}

TextTable zone_figures(const ZoneHydraulics& zone, UnitSystem units) {
  TextTable table{{{"", Column::Side::left}, {"", Column::Side::left, true}}, {}};
  table.rows.push_back({"needs", flow_phrase(zone.demand_m3_per_s, units)});
  table.rows.push_back({"tap gives", zone.available_m3_per_s > 0
                                         ? flow_phrase(zone.available_m3_per_s, units) + " after the margin"
                                         : std::string("not known: no bucket test and no flow is stated")});
  table.rows.push_back({"after the head", pressure_phrase(zone.start_pa, units)});
  table.rows.push_back(
      {"at the outlets", pressure_phrase(zone.lowest_pa, units) + " to " + pressure_phrase(zone.highest_pa, units)});
  table.rows.push_back({"regulator", to_text(zone.regulator, units)});
  return table;
}

std::string zone_text(const ZoneHydraulics& zone, const Garden& garden, const Page& page) {
  const std::string name = zone.zone >= 0 ? printable(garden.zones[static_cast<std::size_t>(zone.zone)].name) : "";
  std::string out = heading(name.empty() || garden.zones.size() == 1 ? "The zone" : "Zone " + quoted(name));
  if (garden.zones.size() > 1) out += wrapped(verdict_sentence(zone.verdict, zone.words), page.width, 2, 2);
  out += laid_out(zone_figures(zone, page.units), page.width, 2);
  for (const std::string& advice : zone.advice) out += wrapped("to change: " + printable(advice), page.width, 2, 4);
  return out;
}

std::string runs_text(const SizedGarden& sized, const Page& page) {
  TextTable table{{{"Run", Column::Side::left, true},
                   {"Size", Column::Side::left},
                   {"Flow", Column::Side::right},
                   {"Rule of thumb", Column::Side::left},
                   {"Computed", Column::Side::left}},
                  {}};
  for (const RunHydraulics& run : sized.runs) {
    const Run& laid = sized.garden.runs[static_cast<std::size_t>(run.run)];
    table.rows.push_back({printable(laid.name), size_phrase(run.size), flow_phrase(run.flow_m3_per_s, page.units),
                          size_phrase(run.size_by_rule), size_phrase(run.size_by_computation)});
  }
  return table.rows.empty() ? std::string() : heading("Sizes") + laid_out(table, page.width, 2);
}

}  // namespace

std::string check_text(const SizedGarden& sized, const Page& page) {
  const Garden& garden = sized.garden;
  std::string out = title_line(garden.name, "Garden");
  if (const std::string counts = element_counts(garden); !counts.empty()) out += wrapped(counts, page.width);
  out += "\n" + wrapped(verdict_sentence(sized), page.width);
  for (const ZoneHydraulics& zone : sized.zones) out += zone_text(zone, garden, page);
  return out + runs_text(sized, page);
}

}  // namespace teetally
