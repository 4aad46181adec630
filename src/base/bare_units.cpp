#include <fmt/format.h>

#include "base/units.h"
#include "teetally/base/words.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

std::string unit_of(Fields& units, std::string_view key, const UnitTable& table, const std::string& stage,
                    Diagnostics& diagnostics) {
  const auto spelling = units.text(key);
  if (!spelling) return {};
  if (const Unit* unit = find_unit(table, *spelling)) return std::string(unit->name);
  diagnostics.error(stage + "/bad-value", units.place_of(key), unknown_unit(table, *spelling));
  return {};
}

}  // namespace

BareUnits read_bare_units(Fields& fields, const std::string& stage, Diagnostics& diagnostics) {
  BareUnits out;
  const YamlNode* node = fields.find("units");
  if (node == nullptr) return out;
  if (node->kind != YamlNode::Kind::mapping && node->place.known()) {
    diagnostics
        .error(stage + "/wrong-type", node->place, "'units' is " + describe(*node) + "; expected keys and values")
        .help = "for example units: {length: ft, flow: gph}";
    return out;
  }
  const BareUnits none;
  Fields units(*node, stage, "units", none, diagnostics);
  out.length = unit_of(units, "length", length_units(), stage, diagnostics);
  out.flow = unit_of(units, "flow", flow_units(), stage, diagnostics);
  out.pressure = unit_of(units, "pressure", pressure_units(), stage, diagnostics);
  out.volume = unit_of(units, "volume", volume_units(), stage, diagnostics);
  units.finish();
  return out;
}

}  // namespace teetally
