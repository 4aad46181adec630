#include "teetally/design.h"

namespace teetally {

namespace {

Json json_of(Percent value) { return Json(to_string(value)); }
Json json_of(Length value) { return Json::object().set("tenths_mm", value.tenths_mm); }
Json json_of(Pressure value) { return Json::object().set("pa", value.pa); }
Json json_of(std::int64_t value) { return Json(value); }
Json json_of(double value) { return Json(value); }
Json json_of(bool value) { return Json(value); }
Json json_of(const std::string& value) { return Json(value); }

template <typename Value>
Json setting(const Setting<Value>& setting) {
  return Json::object().set("value", json_of(setting.value)).set("origin", setting.origin);
}

Json to_json(const NominalSize& size) {
  return Json::object()
      .set("size", size.name)
      .set("series", size.series)
      .set("use", size.use)
      .set("inside_tenths_um", size.inside.tenths_um)
      .set("longest_tenths_mm", size.longest.tenths_mm)
      .set("most_nl_per_h", size.most.nl_per_h)
      .set("least_bend_tenths_mm", size.least_bend.tenths_mm)
      .set("origin", size.origin);
}

Json to_json(Point at) {
  Json list = Json::array();
  for (const Length length : {at.east, at.north, at.up}) list.push(length.tenths_mm);
  return list;
}

std::string form_text(Anchor::Form form) {
  switch (form) {
    case Anchor::Form::source:
      return "source";
    case Anchor::Form::at:
      return "at";
    case Anchor::Form::named:
      return "named";
    case Anchor::Form::along:
      return "along";
    case Anchor::Form::nearest:
      return "nearest";
    case Anchor::Form::start:
      return "start";
    case Anchor::Form::middle:
      return "middle";
    case Anchor::Form::end:
      return "end";
  }
  return {};
}

Json to_json(const Anchor& anchor) {
  Json json = Json::object();
  json.set("form", form_text(anchor.form));
  if (anchor.form == Anchor::Form::at) json.set("at_tenths_mm", to_json(anchor.at));
  if (!anchor.name.empty()) json.set("name", anchor.name);
  if (anchor.form == Anchor::Form::along) json.set("along_tenths_mm", anchor.along.tenths_mm);
  return json;
}

Json to_json(const SupplyLine& line) {
  Json steps = Json::array();
  for (const WalkStep& step : line.walk) {
    Json json = Json::object();
    if (step.to) {
      json.set("to", to_json(*step.to));
    } else {
      json.set("by_tenths_mm", to_json(step.by));
    }
    if (!step.as.empty()) json.set("as", step.as);
    steps.push(std::move(json));
  }
  return Json::object()
      .set("name", line.name)
      .set("from", to_json(line.from))
      .set("walk", std::move(steps))
      .set("size", line.size)
      .set("existing", line.existing)
      .set("place", to_string(line.place));
}

Json to_json(const DripTubing& tubing) {
  return Json::object()
      .set("tape", tubing.tape)
      .set("size", tubing.size)
      .set("spacing_tenths_mm", tubing.spacing.tenths_mm)
      .set("flow_nl_per_h", tubing.flow.nl_per_h)
      .set("compensating", tubing.compensating);
}

Json to_json(const OutletSpec& outlet) {
  return Json::object()
      .set("kind", outlet.kind)
      .set("flow_nl_per_h", outlet.flow.nl_per_h)
      .set("compensating", outlet.compensating)
      .set("pattern", outlet.pattern);
}

Json to_json(const Bed& bed) {
  Json json = Json::object();
  json.set("name", bed.name)
      .set("corner_tenths_mm", to_json(bed.corner))
      .set("east_west_tenths_mm", bed.east_west.tenths_mm)
      .set("north_south_tenths_mm", bed.north_south.tenths_mm)
      .set("height_tenths_mm", bed.height.tenths_mm);
  if (bed.row_count) json.set("row_count", *bed.row_count);
  if (bed.row_spacing) json.set("row_spacing_tenths_mm", bed.row_spacing->tenths_mm);
  json.set("rows", to_json(bed.rows));
  if (bed.header) json.set("header", to_text(*bed.header));
  if (!bed.rows_from.empty()) json.set("rows_from", bed.rows_from);
  return json.set("feed", to_json(bed.feed))
      .set("header_size", bed.size)
      .set("valve", bed.valve)
      .set("existing", bed.existing)
      .set("place", to_string(bed.place));
}

Json positions(const std::vector<PlacedPoint>& points) {
  Json list = Json::array();
  for (const PlacedPoint& point : points) list.push(to_json(point.at));
  return list;
}

Json to_json(const Containers& containers) {
  return Json::object()
      .set("name", containers.name)
      .set("at_tenths_mm", positions(containers.at))
      .set("emitter", to_json(containers.emitter))
      .set("emitters_each", containers.each)
      .set("feeder", containers.feeder)
      .set("feed", to_json(containers.feed))
      .set("existing", containers.existing)
      .set("place", to_string(containers.place));
}

Json to_json(const TapeRows& rows) {
  return Json::object()
      .set("name", rows.name)
      .set("start_tenths_mm", to_json(rows.start))
      .set("direction", to_text(rows.direction))
      .set("length_tenths_mm", rows.length.tenths_mm)
      .set("count", rows.count)
      .set("spacing_tenths_mm", rows.spacing.tenths_mm)
      .set("toward", to_text(rows.toward))
      .set("tape", to_json(rows.tape))
      .set("rows_from", rows.rows_from)
      .set("feed", to_json(rows.feed))
      .set("header_size", rows.size)
      .set("valve", rows.valve)
      .set("existing", rows.existing)
      .set("place", to_string(rows.place));
}

Json to_json(const Sprays& sprays) {
  Json json = Json::object();
  json.set("name", sprays.name).set("outlet", to_json(sprays.outlet)).set("at_tenths_mm", positions(sprays.at));
  if (sprays.bench) {
    json.set("bench", Json::object()
                          .set("corner_tenths_mm", to_json(sprays.bench->corner))
                          .set("east_west_tenths_mm", sprays.bench->east_west.tenths_mm)
                          .set("north_south_tenths_mm", sprays.bench->north_south.tenths_mm)
                          .set("spacing_tenths_mm", sprays.bench->spacing.tenths_mm));
  }
  return json.set("feeder", sprays.feeder)
      .set("feed", to_json(sprays.feed))
      .set("existing", sprays.existing)
      .set("place", to_string(sprays.place));
}

Json to_json(const SiteZone& zone) {
  Json members = Json::array();
  for (const ZoneMember& member : zone.members) members.push(member.name);
  return Json::object().set("name", zone.name).set("members", std::move(members));
}

template <typename Value>
Json list_of(const std::vector<Value>& values) {
  Json list = Json::array();
  for (const Value& value : values) list.push(to_json(value));
  return list;
}

Json source_json(const SiteSource& source) {
  Json json = Json::object();
  json.set("name", source.name)
      .set("at_tenths_mm", to_json(Point{source.east, source.north, source.up}))
      .set("thread", source.thread);
  if (source.static_pressure) json.set("static_pressure_pa", source.static_pressure->pa);
  if (source.flow) json.set("flow_nl_per_h", source.flow->nl_per_h).set("flow_origin", source.flow_origin);
  return json.set("timer", source.timer).set("injector", source.injector);
}

}  // namespace

Json to_json(const Practice& practice) {
  Json other = Json::object();
  for (const auto& [key, value] : practice.other) other.set(key, setting(value));
  return Json::object()
      .set("sizes", list_of(practice.sizes))
      .set("tubing_waste", setting(practice.tubing_waste))
      .set("row_waste", setting(practice.row_waste))
      .set("tape_waste", setting(practice.tape_waste))
      .set("feeder_waste", setting(practice.feeder_waste))
      .set("fitting_spares", setting(practice.fitting_spares))
      .set("spare_couplings", setting(practice.spare_couplings))
      .set("spare_hole_plugs", setting(practice.spare_hole_plugs))
      .set("least_joined", setting(practice.least_joined))
      .set("spare_offcut", setting(practice.spare_offcut))
      .set("hold_down_supply", setting(practice.hold_down_supply))
      .set("hold_down_row", setting(practice.hold_down_row))
      .set("elbow_from_degrees", setting(practice.elbow_from_degrees))
      .set("bends_freely_within", setting(practice.bends_freely_within))
      .set("straight_within_degrees", setting(practice.straight_within_degrees))
      .set("four_way", setting(practice.four_way))
      .set("punch_below", setting(practice.punch_below))
      .set("row_inset", setting(practice.row_inset))
      .set("row_end_inset", setting(practice.row_end_inset))
      .set("header_inset", setting(practice.header_inset))
      .set("valve_distance", setting(practice.valve_distance))
      .set("sprayer_height", setting(practice.sprayer_height))
      .set("joining_tolerance", setting(practice.joining_tolerance))
      .set("crossing_clearance", setting(practice.crossing_clearance))
      .set("emitter_count_rule", setting(practice.emitter_count_rule))
      .set("feeder_inch", setting(practice.feeder_inch))
      .set("feeder_metric", setting(practice.feeder_metric))
      .set("emitter_exponent", setting(practice.emitter_exponent))
      .set("emitter_rated_at", setting(practice.emitter_rated_at))
      .set("tape_rated_at", setting(practice.tape_rated_at))
      .set("sprayer_rated_at", setting(practice.sprayer_rated_at))
      .set("compensating_least", setting(practice.compensating_least))
      .set("compensating_most", setting(practice.compensating_most))
      .set("regulator_drip", setting(practice.regulator_drip))
      .set("regulator_tape", setting(practice.regulator_tape))
      .set("filter_mesh_drip", setting(practice.filter_mesh_drip))
      .set("filter_mesh_tape", setting(practice.filter_mesh_tape))
      .set("flow_margin", setting(practice.flow_margin))
      .set("use_rule_of_thumb", setting(practice.use_rule_of_thumb))
      .set("water_celsius", setting(practice.water_celsius))
      .set("most_velocity_m_per_s", setting(practice.most_velocity_m_per_s))
      .set("other", std::move(other));
}

Json to_json(const Site& site) {
  Json points = Json::object();
  for (const NamedPoint& point : site.points) points.set(point.name, to_json(point.at));
  return Json::object()
      .set("name", site.name)
      .set("series", site.series)
      .set("source", source_json(site.source))
      .set("points", std::move(points))
      .set("lines", list_of(site.lines))
      .set("beds", list_of(site.beds))
      .set("containers", list_of(site.containers))
      .set("tape_rows", list_of(site.tape_rows))
      .set("sprays", list_of(site.sprays))
      .set("zones", list_of(site.zones));
}

}  // namespace teetally
