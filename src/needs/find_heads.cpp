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

// The leg that leaves the zone's head node and is connected with the zone's tubing; -1 when there is none.
int first_leg(const Worksheet& sheet, int zone) {
  const std::set<int> systems = systems_in_zone(sheet.garden, zone);
  for (const int leg : sheet.legs_at(sheet.garden.zones[static_cast<std::size_t>(zone)].head_node)) {
    if (systems.contains(sheet.garden.system_of_leg[static_cast<std::size_t>(leg)])) return leg;
  }
  return -1;
}

}  // namespace

std::vector<HeadStart> find_heads(const Worksheet& sheet) {
  const Garden& garden = sheet.garden;
  std::vector<HeadStart> heads;
  for (std::size_t zone = 0; zone < garden.zones.size(); ++zone) {
    const int leg = first_leg(sheet, static_cast<int>(zone));
    if (leg < 0) continue;
    const auto same = std::find_if(heads.begin(), heads.end(), [&](const HeadStart& head) { return head.leg == leg; });
    if (same != heads.end()) {
      same->zones.push_back(static_cast<int>(zone));
    } else {
      heads.push_back({{static_cast<int>(zone)}, garden.zones[zone].head_node, leg, ""});
    }
  }
  for (HeadStart& head : heads) {
    const std::string& zone = garden.zones[static_cast<std::size_t>(head.zones.front())].name;
    head.where = fmt::format("at the {}", garden.source.name);
    if (heads.size() > 1 && !zone.empty()) head.where += fmt::format(", zone {}", quoted(zone));
  }
  return heads;
}

}  // namespace teetally
