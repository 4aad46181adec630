#include <cmath>

#include "render/json_parts.h"
#include "render/phrases.h"

namespace teetally {
namespace {

// Figures are rounded to what they are worth: whole pascals, hundredths of a litre per hour.
Json flow_json(double m3_per_s, UnitSystem units) {
  Json json = Json::object();
  json.set("l_per_h", std::round(m3_per_s * 3.6e6 * 100) / 100);
  json.set("text", flow_phrase(m3_per_s, units));
  return json;
}

Json pressure_json(double pa, UnitSystem units) {
  Json json = Json::object();
  json.set("pa", static_cast<std::int64_t>(std::llround(pa)));
  json.set("text", pressure_phrase(pa, units));
  return json;
}

Json zone_json(const ZoneHydraulics& zone, const Garden& garden, UnitSystem units) {
  Json json = Json::object();
  json.set("name", zone.zone >= 0 ? garden.zones[static_cast<std::size_t>(zone.zone)].name : std::string());
  json.set("verdict", to_text(zone.verdict));
  json.set("words", zone.words);
  json.set("demand", flow_json(zone.demand_m3_per_s, units));
  json.set("available", zone.available_m3_per_s > 0 ? flow_json(zone.available_m3_per_s, units) : Json());
  json.set("start", pressure_json(zone.start_pa, units));
  json.set("lowest", pressure_json(zone.lowest_pa, units));
  json.set("highest", pressure_json(zone.highest_pa, units));
  json.set("regulator", pressure_json(static_cast<double>(zone.regulator.pa), units));
  json.set("advice", words_json(zone.advice));
  return json;
}

Json run_json(const RunHydraulics& run, const Garden& garden, UnitSystem units) {
  const Run& laid = garden.runs[static_cast<std::size_t>(run.run)];
  Json json = Json::object();
  json.set("name", laid.name);
  json.set("role", to_text(laid.role));
  json.set("size", run.size);
  json.set("size_by_rule", run.size_by_rule);
  json.set("size_by_computation", run.size_by_computation);
  json.set("why", run.why);
  json.set("flow", flow_json(run.flow_m3_per_s, units));
  json.set("place", place_json(laid.place));
  return json;
}

}  // namespace

Json check_document(const SizedGarden& sized, UnitSystem units) {
  Json json = document_start("teetally/check", sized.garden.name);
  json.set("verdict", to_text(sized.verdict));
  json.set("words", sized.words);
  Json zones = Json::array();
  for (const ZoneHydraulics& zone : sized.zones) zones.push(zone_json(zone, sized.garden, units));
  json.set("zones", std::move(zones));
  Json runs = Json::array();
  for (const RunHydraulics& run : sized.runs) runs.push(run_json(run, sized.garden, units));
  json.set("runs", std::move(runs));
  return json;
}

}  // namespace teetally
