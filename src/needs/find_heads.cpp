#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "needs/head.h"

namespace teetally {
namespace {

// The connected systems in which a zone's elements have tubing.
std::set<int> systems_in_zone(const Garden& garden, int zone) {
  std::set<int> found;
  for (std::size_t i = 0; i < garden.legs.size(); ++i) {
    const int element = garden.legs[i].element;
    if (element >= 0 && garden.elements[static_cast<std::size_t>(element)].zone == zone) {
      found.insert(garden.system_of_leg[i]);
    }
  }
  return found;
}

// The zones, of those that start at `node`, which have tubing connected with `leg`.
std::vector<int> zones_behind(const Garden& garden, int node, int leg) {
  std::vector<int> found;
  for (std::size_t i = 0; i < garden.zones.size(); ++i) {
    const int zone = static_cast<int>(i);
    const int system = garden.system_of_leg[static_cast<std::size_t>(leg)];
    if (garden.zones[i].head_node == node && systems_in_zone(garden, zone).contains(system)) found.push_back(zone);
  }
  return found;
}

std::vector<int> head_nodes(const Garden& garden) {
  std::vector<int> found;
  for (const Zone& zone : garden.zones) {
    const bool is_new = std::find(found.begin(), found.end(), zone.head_node) == found.end();
    if (zone.head_node >= 0 && is_new) found.push_back(zone.head_node);
  }
  return found;
}

std::string where_of(const Garden& garden, const HeadStart& head, bool is_only) {
  std::vector<std::string> names;
  for (const int zone : head.zones) {
    const std::string& name = garden.zones[static_cast<std::size_t>(zone)].name;
    if (!name.empty()) names.push_back(quoted(name));
  }
  const std::string at = fmt::format("at the {}", garden.source.name);
  if (is_only || names.empty()) return at;
  return fmt::format("{}, {} {}", at, names.size() == 1 ? "zone" : "zones", listed(names));
}

}  // namespace

std::vector<HeadStart> find_heads(const Worksheet& sheet) {
  const Garden& garden = sheet.garden;
  std::vector<HeadStart> heads;
  for (const int node : head_nodes(garden)) {
    for (const int leg : sheet.legs_at(node)) heads.push_back({zones_behind(garden, node, leg), node, leg, ""});
  }
  for (HeadStart& head : heads) head.where = where_of(garden, head, heads.size() == 1);
  return heads;
}

}  // namespace teetally
