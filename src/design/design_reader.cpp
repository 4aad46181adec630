// A design file becomes a Site: parameters first, then element by element, then what holds between them.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "design/design_checks.h"
#include "design/elements_reader.h"
#include "design/measures.h"
#include "design/parameters.h"
#include "teetally/base/units_written.h"

namespace teetally {

namespace design {

std::string element_words(std::string_view kind, const std::string& name) {
  return name.empty() ? fmt::format("a {}", kind) : fmt::format("{} {}", kind, quoted(name));
}

std::string read_name(Fields& fields, const Copy& copy, const Reading& reading) {
  fields.require("name");
  const std::string name = fields.text("name").value_or("");
  reading.families[copy.family].push_back(name);
  return name;
}

std::string read_size(Fields& fields, std::string_view key) {
  const std::string size = fields.text(key).value_or("");
  return size == "auto" ? std::string() : size;
}

std::vector<PlacedPoint> read_positions(Fields& fields, std::string_view key, const Reading& reading) {
  std::vector<PlacedPoint> positions;
  const std::vector<const YamlNode*> items = fields.list(key);
  const bool is_one = items.size() > 1 && std::all_of(items.begin(), items.end(), [](const YamlNode* item) {
                        return item->kind == YamlNode::Kind::scalar;
                      });
  if (is_one) {
    reading.diagnostics
        .error("design/wrong-type", fields.place_of(key),
               fmt::format("{} is a single position; expected a list of positions", quoted(key)))
        .help =
        fmt::format("put brackets around it too, as in {}: [[2 ft, 3 ft]] or [[2 ft, 3 ft], [4 ft, 3 ft]]", key);
    return positions;
  }
  for (const YamlNode* item : items) {
    if (const auto at = read_point(*item, reading.bare, reading.diagnostics)) positions.push_back({*at, item->place});
  }
  return positions;
}

FeedAt read_feed_at(Fields& fields) {
  const std::optional<std::string> word =
      fields.one_of("feed at", {"nearest end", "middle", "north end", "south end", "east end", "west end"});
  if (!word || *word == "nearest end") return FeedAt::nearest_end;
  if (*word == "middle") return FeedAt::middle;
  if (*word == "north end") return FeedAt::north_end;
  if (*word == "south end") return FeedAt::south_end;
  return *word == "east end" ? FeedAt::east_end : FeedAt::west_end;
}

void read_zones(const YamlNode& node, const Reading& reading, Site& site) {
  if (already_told(node)) return;
  if (node.kind != YamlNode::Kind::mapping || node.entries.empty()) {
    reading.diagnostics
        .error("design/wrong-type", node.place,
               fmt::format("'zones' takes names with their members, found {}", describe(node)))
        .help = "for example zones: {beds: [tomatoes, greens], pots: [herbs]}";
    return;
  }
  Fields fields(node, "design", "zones", reading.bare, reading.diagnostics);
  for (const YamlEntry& entry : node.entries) {
    SiteZone zone;
    zone.name = entry.key;
    zone.place = entry.key_place;
    for (const YamlNode* member : fields.list(entry.key)) {
      if (already_told(*member)) continue;
      if (member->kind != YamlNode::Kind::scalar) {
        reading.diagnostics.error("design/wrong-type", member->place,
                                  fmt::format("expected an element's name, found {}", describe(*member)));
        continue;
      }
      const auto family = reading.families.find(member->text);
      if (family == reading.families.end()) {
        zone.members.push_back({member->text, member->place});
        continue;
      }
      for (const std::string& name : family->second) zone.members.push_back({name, member->place});
    }
    site.zones.push_back(std::move(zone));
  }
}

}  // namespace design

namespace {

void read_site(Fields& root, const BareUnits& bare, const Vocabulary& vocabulary, Site& site,
               Diagnostics& diagnostics) {
  design::Families families;
  const design::Reading reading{bare, vocabulary, diagnostics, families};
  site.name = root.text("name").value_or("garden");
  site.series = root.one_of("sizes", {"inch", "metric"}).value_or(site.units == UnitSystem::metric ? "metric" : "inch");
  if (const YamlNode* source = root.require("source")) design::read_source_and_existing(*source, reading, site);
  if (const YamlNode* points = root.find("points")) design::read_points(*points, reading, site);
  design::read_lines(root, reading, site);
  design::read_beds(root, reading, site);
  design::read_containers(root, reading, site);
  design::read_tape_rows(root, reading, site);
  design::read_sprays(root, reading, site);
  if (const YamlNode* zones = root.find("zones")) design::read_zones(*zones, reading, site);
  root.has("set");
  root.finish();
  if (site.beds.empty() && site.containers.empty() && site.tape_rows.empty() && site.sprays.empty()) {
    diagnostics.error("design/nothing-to-water", site.place, "the design has nothing to water").help =
        "add 'beds', 'containers', 'tape rows' or 'sprays'";
  }
}

}  // namespace

Site read_design(const Source& source, const Vocabulary& vocabulary, const std::map<std::string, std::string>& set,
                 Diagnostics& diagnostics) {
  Site site;
  Diagnostics found;
  YamlNode node = read_yaml(source, found);
  if (node.kind != YamlNode::Kind::null) {
    design::fill_in_parameters(node, set, found);
    site.place = node.place;
    site.units = units_written(node);
    const BareUnits none;
    Fields root(node, "design", "the design file", none, found);
    if (root.is_mapping() && design::check_header(root, "design", found)) {
      const BareUnits bare = read_bare_units(root, "design", found);
      read_site(root, bare, vocabulary, site, found);
      design::settle_names(site, found);
    }
  }
  for (Diagnostic& entry : found.in_order()) diagnostics.add(std::move(entry));
  return site;
}

}  // namespace teetally
