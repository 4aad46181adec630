#include "hydraulics/changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "hydraulics/edit_list.h"
#include "hydraulics/flow_paths.h"
#include "hydraulics/regroup.h"
#include "hydraulics/row_cuts.h"
#include "hydraulics/sizing.h"
#include "hydraulics/wording.h"
#include "hydraulics/yaml_words.h"

namespace teetally::hydraulics {
namespace {

// The name a person gave, out of "bed 'tomatoes'".
std::string own_name(const std::string& element) {
  const std::size_t open = element.find('\''), close = element.rfind('\'');
  return open == std::string::npos || close <= open ? element : element.substr(open + 1, close - open - 1);
}

class Changer {
 public:
  Changer(const Site& site, const SizedGarden& sized, int zone, const Practice& practice, UnitSystem units)
      : site_(site), sized_(sized), zone_(zone), practice_(practice), units_(units) {
    for (const Element& element : sized.garden.elements) {
      if (element.zone == zone) in_zone_.insert(element.name);
    }
    take_in_copies();
  }

  std::vector<Change> all() {
    other_regulator();
    next_size(true, false);
    next_size(false, true);
    next_size(true, true);
    feed_from_middle();
    for (int parts = 2; parts <= kMostParts; ++parts) {
      if (auto change = split_zone(site_, sized_.garden, zone_, parts)) changes_.push_back(std::move(*change));
    }
    rows_the_short_way();
    halve_rows();
    compensating();
    less_flow();
    wider_spacing();
    return std::move(changes_);
  }

 private:
  // Copies of one `repeat` are edited together, so they change together, whichever zone they are in.
  void take_in_copies() {
    std::set<Mark> written;
    for (const Bed& bed : site_.beds) {
      if (has(bed)) written.insert(mark_of(bed.place));
    }
    for (const TapeRows& rows : site_.tape_rows) {
      if (has(rows)) written.insert(mark_of(rows.place));
    }
    for (const Bed& bed : site_.beds) {
      if (written.count(mark_of(bed.place)) > 0) in_zone_.insert("bed " + quoted(bed.name));
    }
    for (const TapeRows& rows : site_.tape_rows) {
      if (written.count(mark_of(rows.place)) > 0) in_zone_.insert("tape rows " + quoted(rows.name));
    }
  }

  void add(std::string words, EditList& edits, Site site) {
    if (!edits.empty()) changes_.push_back({std::move(words), edits.take(), std::move(site), std::nullopt, false});
  }

  bool has(const std::string& element) const { return in_zone_.count(element) > 0; }
  bool has(const Bed& bed) const { return has("bed " + quoted(bed.name)); }
  bool has(const TapeRows& rows) const { return has("tape rows " + quoted(rows.name)); }

  // What regulators for drip are commonly sold for, in the units of the garden (common practice).
  std::vector<Pressure> usual_settings() const {
    std::vector<Pressure> settings;
    if (units_ == UnitSystem::metric) return {{170'000}, {140'000}, {100'000}, {70'000}};
    for (const int psi : {25, 20, 15, 10}) settings.push_back({std::llround(psi * 6894.757)});
    return settings;
  }
  // 25 psi is sold as 1.7 bar.
  static bool is_the_same(Pressure setting, Pressure now) {
    constexpr std::int64_t kPart = 50;
    return std::abs(setting.pa - now.pa) * kPart < now.pa;
  }

  void other_regulator() {
    const bool tape = sized_.zones[zone_].tape;
    const Pressure now = tape ? practice_.regulator_tape.value : practice_.regulator_drip.value;
    for (const Pressure setting : usual_settings()) {
      const auto& at_rest = site_.source.static_pressure;
      if (is_the_same(setting, now) || (at_rest && setting.pa >= at_rest->pa)) continue;
      const std::string text = exact(Pressure{setting}, units_);
      Edit edit{
          "practice", "", {}, false, fmt::format("head: {{\"regulator, {}\": {}}}", tape ? "tape" : "drip", text)};
      changes_.push_back({"use a pressure regulator of " + pressure_text(static_cast<double>(setting.pa), units_),
                          {std::move(edit)},
                          site_,
                          setting,
                          false});
    }
  }

  // Names of the elements on whose lines and headers the zone's water comes.
  std::set<int> elements_on_the_way() const {
    const Garden& garden = sized_.garden;
    const FlowPaths paths = flow_paths(garden);
    std::set<int> elements;
    for (std::size_t run = 0; run < garden.runs.size(); ++run) {
      if (!has(garden.elements[garden.runs[run].element].name)) continue;
      for (int at = static_cast<int>(run); at >= 0; at = paths.feeder_of_run[at]) {
        if (!elements.insert(garden.runs[at].element).second && at != static_cast<int>(run)) break;
      }
    }
    return elements;
  }

  // The next supply size up from what a run of this element and role has now; empty when there is none.
  std::string next_of(const std::string& element, bool line) const {
    const Garden& garden = sized_.garden;
    const std::vector<const NominalSize*> sizes = sizes_to_choose(garden, practice_);
    for (const Run& run : garden.runs) {
      const bool right = line ? run.role == LegRole::supply : run.role == LegRole::header || run.role == LegRole::riser;
      if (!right || garden.elements[run.element].name != element) continue;
      const auto at =
          std::find_if(sizes.begin(), sizes.end(), [&](const NominalSize* size) { return size->name == run.size; });
      if (at != sizes.end() && at + 1 != sizes.end()) return (*(at + 1))->name;
    }
    return "";
  }

  void next_size(bool lines, bool headers) {
    std::set<std::string> names;
    for (const int element : elements_on_the_way()) names.insert(sized_.garden.elements[element].name);
    Site larger = site_;
    EditList edits;
    std::vector<std::string> said;
    const auto enlarge = [&](const std::string& element, bool line, const Place& place, std::string& size) {
      if (names.count(element) == 0) return;
      const std::string next = next_of(element, line);
      if (next.empty()) return;
      size = next;
      edits.add(element, place, (line ? "size: " : "header size: ") + next);
      said.push_back(fmt::format("{}{}: {}", element, line ? "" : " header", next));
    };
    if (lines) {
      for (SupplyLine& line : larger.lines) {
        if (!line.existing) enlarge("line " + quoted(line.name), true, line.place, line.size);
      }
    }
    if (headers) {
      for (Bed& bed : larger.beds) {
        if (!bed.existing && bed.rows_from.empty()) enlarge("bed " + quoted(bed.name), false, bed.place, bed.size);
      }
      for (TapeRows& rows : larger.tape_rows) {
        if (!rows.existing && rows.rows_from.empty())
          enlarge("tape rows " + quoted(rows.name), false, rows.place, rows.size);
      }
    }
    add("take the next size of tubing (" + listed(said) + ")", edits, std::move(larger));
  }

  void feed_from_middle() {
    Site moved = site_;
    EditList edits;
    std::vector<std::string> names;
    const auto move = [&](const std::string& name, auto& rows) {
      if (!has(name) || rows.existing || !rows.rows_from.empty() || rows.feed_at == FeedAt::middle) return;
      rows.feed_at = FeedAt::middle;
      edits.add(name, rows.place, "feed at: middle");
      names.push_back(name);
    };
    for (Bed& bed : moved.beds) move("bed " + quoted(bed.name), bed);
    for (TapeRows& rows : moved.tape_rows) move("tape rows " + quoted(rows.name), rows);
    add("feed the header of " + listed(names) + " from its middle", edits, std::move(moved));
  }

  // A place that several elements share was written once, with `repeat`: it cannot be cut in two by one edit.
  bool stands_alone(const Place& place) const {
    int alike = 0;
    for (const Bed& bed : site_.beds) alike += mark_of(bed.place) == mark_of(place);
    for (const TapeRows& rows : site_.tape_rows) alike += mark_of(rows.place) == mark_of(place);
    return alike == 1;
  }

  void rows_the_short_way() {
    Site turned = site_;
    EditList edits;
    std::vector<std::string> names;
    for (Bed& bed : turned.beds) {
      if (!has(bed) || bed.existing || !bed.header || !stands_alone(bed.place)) continue;
      const bool east_west = *bed.header == Side::east || *bed.header == Side::west;
      const Length along = east_west ? bed.east_west : bed.north_south;
      const Length across = east_west ? bed.north_south : bed.east_west;
      if (along <= across) continue;
      const Length inset = practice_.row_inset.value * 2;
      Length spacing = bed.row_spacing.value_or(Length{});
      if (bed.row_count && *bed.row_count > 1) spacing = {(across - inset).tenths_mm / (*bed.row_count - 1)};
      if (spacing <= Length{}) continue;
      bed.header = east_west ? Side::south : Side::west;
      bed.row_spacing.reset();
      bed.row_count = (along - inset).tenths_mm / spacing.tenths_mm + 1;
      const std::string name = "bed " + quoted(bed.name);
      edits.add(name, bed.place, "header: " + to_text(*bed.header));
      edits.add(name, bed.place, fmt::format("rows: {{count: {}}}", *bed.row_count));
      if (bed.rows_east_west) {
        bed.rows_east_west = !east_west;
        edits.add(name, bed.place, std::string("direction: ") + (east_west ? "north-south" : "east-west"));
      }
      names.push_back(name);
    }
    add("let the rows of " + listed(names) + " run the short way, from a header along its long side", edits,
        std::move(turned));
  }

  void halve_rows() {
    Site halved = site_;
    EditList edits;
    std::vector<std::string> names;
    const UnitSystem units = site_.units;
    for (std::size_t i = 0, n = halved.beds.size(); i < n; ++i) {
      const Bed& whole = site_.beds[i];
      if (!has(whole) || whole.existing || !whole.header || !whole.rows_from.empty() || !stands_alone(whole.place))
        continue;
      Bed& near = halved.beds[i];
      Bed far = cut(near);
      far.name = free_name(whole.name, halved);
      const std::string name = "bed " + quoted(whole.name);
      if (near.corner != whole.corner) edits.add(name, near.place, "corner: " + exact(near.corner, units));
      edits.add(name, near.place,
                fmt::format("size: [{}, {}]", exact(near.east_west, units), exact(near.north_south, units)));
      edits.add_item("beds", near.place,
                     fmt::format("- {{name: {}, like: {}, corner: {}}}", yaml_name(far.name), yaml_name(whole.name),
                                 exact(far.corner, units)));
      names.push_back(name);
      join_zone_of(halved, whole.name, far.name);
      halved.beds.push_back(std::move(far));
    }
    for (std::size_t i = 0, n = halved.tape_rows.size(); i < n; ++i) {
      const TapeRows& whole = site_.tape_rows[i];
      if (!has(whole) || whole.existing || !whole.rows_from.empty() || !stands_alone(whole.place)) continue;
      TapeRows& near = halved.tape_rows[i];
      near.length.tenths_mm /= 2;
      TapeRows far = near;
      far.start = moved(whole.start, whole.direction, near.length);
      far.name = free_name(whole.name, halved);
      const std::string name = "tape rows " + quoted(whole.name);
      edits.add(name, near.place, "length: " + exact(near.length, units));
      edits.add_item("tape rows", near.place,
                     fmt::format("- {{name: {}, like: {}, start: {}}}", yaml_name(far.name), yaml_name(whole.name),
                                 exact(far.start, units)));
      names.push_back(name);
      join_zone_of(halved, whole.name, far.name);
      halved.tape_rows.push_back(std::move(far));
    }
    if (!names.empty() && !site_.zones.empty()) edits.add("", {}, zones_text(halved.zones));
    add("halve the rows of " + listed(names) + ": two of half the length, each with a header of its own", edits,
        std::move(halved));
  }

  // Other line in all rows of the zone. `change` answers false where it changes nothing.
  template <typename Function>
  void other_line(const Function& change, std::string (*words)(const std::string&, const std::string&)) {
    Site other = site_;
    EditList edits;
    std::vector<std::string> names, kinds;
    std::set<Mark> written;
    for (const Bed& bed : site_.beds) {
      if (has(bed) && !bed.existing) written.insert(mark_of(bed.rows.place));
    }
    for (const TapeRows& rows : site_.tape_rows) {
      if (has(rows) && !rows.existing) written.insert(mark_of(rows.tape.place));
    }
    const auto replace = [&](const std::string& name, DripTubing& tubing, bool existing) {
      if (existing || written.count(mark_of(tubing.place)) == 0 || !change(tubing)) return;
      edits.add(name, tubing.place, drip_tubing_line(tubing, practice_, site_.units));
      names.push_back(name);
      const std::string kind =
          fmt::format("{} every {}", to_text(tubing.flow, units_), to_text(tubing.spacing, units_));
      if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
    };
    for (Bed& bed : other.beds) replace("bed " + quoted(bed.name), bed.rows, bed.existing);
    for (TapeRows& rows : other.tape_rows) replace("tape rows " + quoted(rows.name), rows.tape, rows.existing);
    add(words(listed(names), listed(kinds)), edits, std::move(other));
  }

  void compensating() {
    other_line(
        [](DripTubing& tubing) {
          if (tubing.compensating || tubing.tape) return false;
          tubing.compensating = true;
          tubing.exponent.reset();
          return true;
        },
        [](const std::string& names, const std::string&) { return "use compensating emitter line in " + names; });
  }

  void less_flow() {
    other_line(
        [](DripTubing& tubing) {
          tubing.flow.nl_per_h /= 2;
          return true;
        },
        [](const std::string& names, const std::string& kinds) {
          return "use line of half the flow in " + names + " (" + kinds + "), and water twice as long";
        });
  }

  void wider_spacing() {
    other_line(
        [](DripTubing& tubing) {
          tubing.spacing = tubing.spacing * 2;
          return true;
        },
        [](const std::string& names, const std::string& kinds) {
          return "use line with half as many emitters in " + names + " (" + kinds + "), and water twice as long";
        });
  }

  const Site& site_;
  const SizedGarden& sized_;
  int zone_;
  const Practice& practice_;
  UnitSystem units_;
  std::set<std::string> in_zone_;
  std::vector<Change> changes_;
};

}  // namespace

std::optional<Change> split_zone(const Site& site, const Garden& garden, int zone, int parts) {
  const std::vector<std::vector<int>> groups = balanced_groups(garden, zone, parts);
  if (static_cast<int>(groups.size()) != parts) return std::nullopt;
  Change change;
  change.site = site;
  change.splits = true;
  const std::string name = site.zones.empty() ? "zone" : site.zones[zone].name;
  std::vector<SiteZone> zones;
  std::vector<std::string> said;
  for (int part = 0; part < parts; ++part) {
    SiteZone one;
    one.name = fmt::format("{} {}", name, part + 1);
    std::vector<std::string> names;
    for (const int element : groups[part]) {
      names.push_back(garden.elements[element].name);
      one.members.push_back({own_name(names.back()), {}});
    }
    said.push_back(listed(names));
    zones.push_back(std::move(one));
  }
  // Lines and the like that stood in the zone stay with its first part.
  if (!site.zones.empty()) {
    for (const ZoneMember& member : site.zones[zone].members) {
      const auto named = [&](const ZoneMember& other) { return other.name == member.name; };
      const bool placed = std::any_of(zones.begin(), zones.end(), [&](const SiteZone& one) {
        return std::any_of(one.members.begin(), one.members.end(), named);
      });
      const bool line = std::any_of(site.lines.begin(), site.lines.end(),
                                    [&](const SupplyLine& other) { return other.name == member.name; });
      if (!placed && !line) zones.front().members.push_back(member);
    }
  }
  std::vector<SiteZone>& all = change.site.zones;
  if (!all.empty()) all.erase(all.begin() + zone);
  all.insert(all.begin() + (site.zones.empty() ? 0 : zone), zones.begin(), zones.end());
  change.words = fmt::format("run it as {} zones, one after another: {}", parts, fmt::join(said, " / "));
  change.edits.push_back({"design", "", {}, false, zones_text(all)});
  return change;
}

std::vector<Change> changes_for(const Site& site, const SizedGarden& sized, int zone, const Practice& practice,
                                UnitSystem units) {
  return Changer(site, sized, zone, practice, units).all();
}

}  // namespace teetally::hydraulics
