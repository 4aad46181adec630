#include "teetally/hydraulics.h"

namespace teetally {
namespace {

Json to_json(const RunHydraulics& run, const Garden& garden) {
  Json json = Json::object();
  json.set("run", garden.runs[run.run].name)
      .set("size", run.size)
      .set("size_by_rule", run.size_by_rule)
      .set("size_by_computation", run.size_by_computation)
      .set("why", run.why)
      .set("flow_m3_per_s", run.flow_m3_per_s)
      .set("velocity_m_per_s", run.velocity_m_per_s)
      .set("farthest_tenths_mm", run.farthest.tenths_mm);
  return json;
}

Json to_json(const RowHydraulics& row, const Garden& garden) {
  Json json = Json::object();
  json.set("run", garden.runs[row.run].name)
      .set("outlets", row.outlets)
      .set("flow_m3_per_s", row.flow_m3_per_s)
      .set("inlet_pa", row.inlet_pa)
      .set("first_m3_per_s", row.first_m3_per_s)
      .set("last_m3_per_s", row.last_m3_per_s)
      .set("variation", row.variation)
      .set("length_tenths_mm", row.length.tenths_mm)
      .set("longest_even_tenths_mm", row.longest_even.tenths_mm);
  return json;
}

Json to_json(const PathPoint& point) {
  Json json = Json::object();
  json.set("where", point.where)
      .set("along_tenths_mm", point.along.tenths_mm)
      .set("up_tenths_mm", point.up.tenths_mm)
      .set("pa", point.pa);
  return json;
}

Json to_json(const ZoneHydraulics& zone, const Garden& garden) {
  Json path = Json::array();
  for (const PathPoint& point : zone.worst_path) path.push(to_json(point));
  Json json = Json::object();
  json.set("zone", garden.zones[zone.zone].name)
      .set("verdict", to_text(zone.verdict))
      .set("words", zone.words)
      .set("demand_m3_per_s", zone.demand_m3_per_s)
      .set("rated_m3_per_s", zone.rated_m3_per_s)
      .set("tested_m3_per_s", zone.tested_m3_per_s)
      .set("available_m3_per_s", zone.available_m3_per_s)
      .set("regulator_pa", zone.regulator.pa)
      .set("tape", zone.tape)
      .set("start_pa", zone.start_pa)
      .set("supply_limits", zone.supply_limits)
      .set("lowest_pa", zone.lowest_pa)
      .set("highest_pa", zone.highest_pa)
      .set("least_part", zone.least_part)
      .set("most_part", zone.most_part)
      .set("variation", zone.variation)
      .set("uniformity_percent", zone.uniformity_percent)
      .set("fastest_m_per_s", zone.fastest_m_per_s)
      .set("most_m3_per_s", zone.most_m3_per_s)
      .set("worst_path", std::move(path));
  return json;
}

Json numbers(const std::vector<double>& values) {
  Json array = Json::array();
  for (const double value : values) array.push(value);
  return array;
}

}  // namespace

Json to_json(const Advice& advice) {
  Json edits = Json::array(), warnings = Json::array();
  for (const Edit& edit : advice.edits) {
    Json json = Json::object();
    json.set("file", edit.file)
        .set("of", edit.of)
        .set("line", edit.place.line)
        .set("new_item", edit.new_item)
        .set("text", edit.text);
    edits.push(std::move(json));
  }
  for (const std::string& warning : advice.warnings) warnings.push(warning);
  Json json = Json::object();
  json.set("words", advice.words)
      .set("edits", std::move(edits))
      .set("then", to_text(advice.then))
      .set("outcome", advice.outcome)
      .set("warnings", std::move(warnings));
  return json;
}

Json to_json(const SizedGarden& sized) {
  Json zones = Json::array(), runs = Json::array(), rows = Json::array();
  for (const ZoneHydraulics& zone : sized.zones) zones.push(to_json(zone, sized.garden));
  for (const RunHydraulics& run : sized.runs) runs.push(to_json(run, sized.garden));
  for (const RowHydraulics& row : sized.rows) rows.push(to_json(row, sized.garden));
  Json json = Json::object();
  json.set("verdict", to_text(sized.verdict))
      .set("words", sized.words)
      .set("zones", std::move(zones))
      .set("runs", std::move(runs))
      .set("rows", std::move(rows))
      .set("leg_flow_m3_per_s", numbers(sized.leg_flow_m3_per_s))
      .set("node_pa", numbers(sized.node_pa))
      .set("garden", to_json(sized.garden));
  return json;
}

}  // namespace teetally
