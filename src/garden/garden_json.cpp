#include <fmt/format.h>

#include "teetally/garden.h"

namespace teetally {

std::string to_text(LegRole role) {
  switch (role) {
    case LegRole::supply:
      return "supply";
    case LegRole::riser:
      return "riser";
    case LegRole::header:
      return "header";
    case LegRole::row:
      return "row";
    case LegRole::tape:
      return "tape";
    case LegRole::feeder:
      return "feeder";
  }
  return {};
}

std::string to_text(Joint joint) {
  switch (joint) {
    case Joint::end_closure:
      return "end closure";
    case Joint::flush_cap:
      return "flush cap";
    case Joint::elbow:
      return "elbow";
    case Joint::straight:
      return "straight";
    case Joint::tee:
      return "tee";
    case Joint::cross:
      return "cross";
    case Joint::take_off:
      return "take-off";
    case Joint::tape_start:
      return "tape start";
    case Joint::head:
      return "head";
  }
  return {};
}

namespace {

Json indices(const std::vector<int>& values) {
  Json list = Json::array();
  for (const int value : values) list.push(value);
  return list;
}

Json to_json(const Zone& zone) {
  return Json::object()
      .set("name", zone.name)
      .set("elements", indices(zone.elements))
      .set("head_node", zone.head_node)
      .set("place", to_string(zone.place));
}

Json to_json(const Element& element) {
  return Json::object()
      .set("name", element.name)
      .set("kind", element.kind)
      .set("zone", element.zone)
      .set("existing", element.existing)
      .set("place", to_string(element.place));
}

Json to_json(const Node& node) {
  return Json::object()
      .set("east_tenths_mm", node.at.east.tenths_mm)
      .set("north_tenths_mm", node.at.north.tenths_mm)
      .set("up_tenths_mm", node.at.up.tenths_mm)
      .set("label", node.label)
      .set("device", node.device);
}

Json to_json(const Leg& leg) {
  return Json::object()
      .set("from", leg.from)
      .set("to", leg.to)
      .set("length_tenths_mm", leg.length.tenths_mm)
      .set("role", to_text(leg.role))
      .set("size", leg.size)
      .set("run", leg.run)
      .set("place", to_string(leg.place));
}

Json to_json(const EmitterLaw& law) {
  return Json::object()
      .set("rated_nl_per_h", law.rated.nl_per_h)
      .set("rated_at_pa", law.rated_at.pa)
      .set("exponent", law.exponent)
      .set("compensating", law.compensating)
      .set("least_pa", law.least.pa)
      .set("most_pa", law.most.pa);
}

Json to_json(const Run& run) {
  Json json = Json::object();
  json.set("name", run.name)
      .set("role", to_text(run.role))
      .set("size", run.size)
      .set("size_given", run.size_given)
      .set("element", run.element)
      .set("tubing", to_json(run.tubing))
      .set("may_join", run.may_join)
      .set("existing", run.existing)
      .set("place", to_string(run.place));
  if (!run.emitters) return json;
  return json.set("emitters", to_json(*run.emitters))
      .set("emitter_spacing_tenths_mm", run.emitter_spacing.tenths_mm)
      .set("emitter_count", run.emitter_count);
}

Json to_json(const Device& device) {
  Json json = Json::object();
  json.set("part", to_json(device.part))
      .set("node", device.node)
      .set("element", device.element)
      .set("count", device.count)
      .set("rule", device.rule)
      .set("existing", device.existing)
      .set("place", to_string(device.place));
  if (device.outlet) json.set("outlet", to_json(*device.outlet));
  return json;
}

Json to_json(const Fitting& fitting) {
  return Json::object()
      .set("joint", to_text(fitting.joint))
      .set("node", fitting.node)
      .set("legs", indices(fitting.legs))
      .set("element", fitting.element)
      .set("rule", fitting.rule)
      .set("where", fitting.where)
      .set("place", to_string(fitting.place));
}

Json to_json(const Piece& piece) {
  return Json::object()
      .set("length_tenths_mm", piece.length.tenths_mm)
      .set("run", piece.run)
      .set("legs", indices(piece.legs))
      .set("where", piece.where);
}

template <typename Value>
Json list_of(const std::vector<Value>& values) {
  Json list = Json::array();
  for (const Value& value : values) list.push(to_json(value));
  return list;
}

}  // namespace

Json to_json(const Garden& garden) {
  return Json::object()
      .set("name", garden.name)
      .set("series", garden.series)
      .set("zones", list_of(garden.zones))
      .set("elements", list_of(garden.elements))
      .set("nodes", list_of(garden.nodes))
      .set("legs", list_of(garden.legs))
      .set("runs", list_of(garden.runs))
      .set("devices", list_of(garden.devices))
      .set("fittings", list_of(garden.fittings))
      .set("pieces", list_of(garden.pieces))
      .set("system_of_leg", indices(garden.system_of_leg));
}

}  // namespace teetally
