#include "hydraulics/row_cuts.h"

#include <fmt/format.h>

#include <algorithm>

#include "hydraulics/yaml_words.h"

namespace teetally::hydraulics {

Point moved(Point at, Side side, Length by) {
  switch (side) {
    case Side::east:
      at.east += by;
      break;
    case Side::west:
      at.east += -by;
      break;
    case Side::north:
      at.north += by;
      break;
    case Side::south:
      at.north += -by;
      break;
  }
  return at;
}

std::string free_name(const std::string& name, const Site& site) {
  const std::string wanted = name + " far half";
  const auto taken = [&](const std::string& word) {
    return std::any_of(site.beds.begin(), site.beds.end(), [&](const Bed& bed) { return bed.name == word; }) ||
           std::any_of(site.tape_rows.begin(), site.tape_rows.end(),
                       [&](const TapeRows& rows) { return rows.name == word; });
  };
  std::string free = wanted;
  for (int n = 2; taken(free); ++n) free = fmt::format("{} {}", wanted, n);
  return free;
}

void join_zone_of(Site& site, const std::string& name, const std::string& added) {
  for (SiteZone& zone : site.zones) {
    for (const ZoneMember& member : zone.members) {
      if (member.name != name) continue;
      zone.members.push_back({added, {}});
      return;
    }
  }
}

Bed cut(Bed& bed) {
  Bed far = bed;
  const bool east_west = *bed.header == Side::east || *bed.header == Side::west;
  Length& near_length = east_west ? bed.east_west : bed.north_south;
  Length& far_length = east_west ? far.east_west : far.north_south;
  const Length half{near_length.tenths_mm / 2};
  near_length = far_length = half;
  Point& low_end = *bed.header == Side::west || *bed.header == Side::south ? far.corner : bed.corner;
  low_end = moved(low_end, east_west ? Side::east : Side::north, half);
  return far;
}

std::string zones_text(const std::vector<SiteZone>& zones) {
  std::string text = "zones:";
  for (const SiteZone& zone : zones) {
    std::vector<std::string> names;
    for (const ZoneMember& member : zone.members) names.push_back(yaml_name(member.name));
    text += fmt::format("\n  {}: [{}]", yaml_name(zone.name), fmt::join(names, ", "));
  }
  return text;
}

}  // namespace teetally::hydraulics
