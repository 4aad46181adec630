#include <cmath>

#include "render/check/parts.h"
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

Json length_json(Length length, UnitSystem units) { return amount_json(true, length.tenths_mm, units); }

// Parts of one to four places.
double rounded(double part) { return std::round(part * 1e4) / 1e4; }

Json velocity_json(double m_per_s, UnitSystem units) {
  Json json = Json::object();
  json.set("m_per_s", std::round(m_per_s * 1000) / 1000);
  json.set("text", velocity_phrase(m_per_s, units));
  return json;
}

Json path_json(const std::vector<PathPoint>& path, UnitSystem units) {
  Json points = Json::array();
  for (const PathPoint& point : path) {
    Json json = Json::object();
    json.set("where", point.where);
    json.set("along", length_json(point.along, units));
    json.set("up", length_json(point.up, units));
    json.set("pressure", pressure_json(point.pa, units));
    points.push(std::move(json));
  }
  return points;
}

Json advice_json(const Advice& advice) {
  Json edits = Json::array();
  for (const Edit& edit : advice.edits) {
    Json json = Json::object();
    json.set("file", edit.file);
    json.set("of", edit.of);
    json.set("place", place_json(edit.place));
    json.set("new_item", edit.new_item);
    json.set("text", edit.text);
    edits.push(std::move(json));
  }
  Json json = Json::object();
  json.set("words", advice.words);
  json.set("edits", std::move(edits));
  json.set("verdict", to_text(advice.then));
  json.set("outcome", advice.outcome);
  json.set("warnings", words_json(advice.warnings));
  return json;
}

void set_evenness(Json& json, const ZoneHydraulics& zone) {
  json.set("flow_variation", rounded(zone.variation));
  json.set("emission_uniformity_percent", std::round(zone.uniformity_percent * 10) / 10);
  json.set("emission_uniformity_class", zone.uniformity_class);
  json.set("least_part_of_rated", rounded(zone.least_part));
  json.set("most_part_of_rated", rounded(zone.most_part));
}

Json zone_json(const CheckView& view, std::size_t index, UnitSystem units) {
  const ZoneHydraulics& zone = view.sized.zones[index];
  const Garden& garden = view.sized.garden;
  const auto known = [&](double flow) { return flow > 0 ? flow_json(flow, units) : Json(); };
  Json json = Json::object();
  json.set("name", zone.zone >= 0 ? garden.zones[static_cast<std::size_t>(zone.zone)].name : std::string());
  json.set("verdict", to_text(zone.verdict));
  json.set("words", zone.words);
  json.set("demand", flow_json(zone.demand_m3_per_s, units));
  json.set("rated", flow_json(zone.rated_m3_per_s, units));
  json.set("tested", known(zone.tested_m3_per_s));
  json.set("available", known(zone.available_m3_per_s));
  json.set("largest", known(zone.most_m3_per_s));
  json.set("start", pressure_json(zone.start_pa, units));
  json.set("tap_limits_pressure", zone.supply_limits);
  json.set("lowest", pressure_json(zone.lowest_pa, units));
  json.set("highest", pressure_json(zone.highest_pa, units));
  json.set("regulator", pressure_json(static_cast<double>(zone.regulator.pa), units));
  json.set("regulator_why", zone.regulator_why);
  set_evenness(json, zone);
  json.set("fastest", velocity_json(zone.fastest_m_per_s, units));
  json.set("worst_path", path_json(zone.worst_path, units));
  Json advice = Json::array();
  if (view.advice != nullptr && index < view.advice->size()) {
    for (const Advice& one : (*view.advice)[index]) advice.push(advice_json(one));
  }
  json.set("advice", std::move(advice));
  return json;
}

Json row_json(const RowHydraulics& row, const Garden& garden, UnitSystem units) {
  Json json = Json::object();
  json.set("name", garden.runs[static_cast<std::size_t>(row.run)].name);
  json.set("outlets", row.outlets);
  json.set("flow", flow_json(row.flow_m3_per_s, units));
  json.set("inlet", pressure_json(row.inlet_pa, units));
  json.set("first", flow_json(row.first_m3_per_s, units));
  json.set("last", flow_json(row.last_m3_per_s, units));
  json.set("flow_variation", rounded(row.variation));
  json.set("length", length_json(row.length, units));
  json.set("longest_even", length_json(row.longest_even, units));
  return json;
}

Json limit_json(double value, const std::string& origin) {
  Json json = Json::object();
  json.set("value", rounded(value));
  json.set("origin", origin);
  return json;
}

Json limits_json(const Limits& limits) {
  Json json = Json::object();
  json.set("flow_margin", limit_json(limits.margin, limits.margin_origin));
  json.set("velocity_m_per_s", limit_json(limits.velocity_m_per_s, limits.velocity_origin));
  json.set("flow_variation", limit_json(limits.variation, limits.variation_origin));
  json.set("emitter_manufacturing_variation", limit_json(limits.emitter_cv, limits.emitter_cv_origin));
  json.set("rule_of_thumb", limits.rule_of_thumb);
  return json;
}

Json taken_json(const std::vector<TakenFigure>& taken) {
  Json list = Json::array();
  for (const TakenFigure& figure : taken) {
    Json json = Json::object();
    json.set("text", figure.text);
    json.set("origin", figure.origin);
    list.push(std::move(json));
  }
  return list;
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
  json.set("velocity", velocity_json(run.velocity_m_per_s, units));
  json.set("place", place_json(laid.place));
  return json;
}

}  // namespace

Json check_document(const CheckView& view, UnitSystem units) {
  const SizedGarden& sized = view.sized;
  Json json = document_start("teetally/check", sized.garden.name);
  json.set("verdict", to_text(sized.verdict));
  json.set("words", sized.words);
  Json zones = Json::array();
  for (std::size_t i = 0; i < sized.zones.size(); ++i) zones.push(zone_json(view, i, units));
  json.set("zones", std::move(zones));
  Json runs = Json::array();
  for (const RunHydraulics& run : sized.runs) runs.push(run_json(run, sized.garden, units));
  json.set("runs", std::move(runs));
  Json rows = Json::array();
  for (const RowHydraulics& row : sized.rows) rows.push(row_json(row, sized.garden, units));
  json.set("rows", std::move(rows));
  json.set("limits", limits_json(sized.limits));
  json.set("taken_for_granted", taken_json(sized.taken));
  return json;
}

}  // namespace teetally
