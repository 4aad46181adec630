#include "hydraulics/changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "hydraulics/flow_paths.h"
#include "hydraulics/regroup.h"
#include "hydraulics/sizing.h"
#include "hydraulics/wording.h"

namespace teetally::hydraulics {
namespace {

bool in_zone(const Garden& garden, int element, int zone) {
  return element >= 0 && garden.elements[element].zone == zone;
}

bool is_main(LegRole role) { return role == LegRole::supply || role == LegRole::riser || role == LegRole::header; }

// The name a person gave, out of "bed 'tomatoes'".
std::string own_name(const std::string& element) {
  const std::size_t open = element.find('\''), close = element.rfind('\'');
  return open == std::string::npos || close <= open ? element : element.substr(open + 1, close - open - 1);
}

class Changer {
 public:
  Changer(const Garden& laid_out, const Garden& sized, int zone, const Practice& practice, UnitSystem units)
      : garden_(laid_out), sized_(sized), zone_(zone), practice_(practice), units_(units) {}

  std::vector<Change> all() {
    other_regulator();
    next_size();
    header_from_middle();
    for (int parts = 2; parts <= 6; ++parts) split(parts);
    rows_from_middle();
    compensating();
    less_flow();
    wider_spacing();
    return std::move(changes_);
  }

 private:
  Change& add(std::string words, std::string edit, Garden garden) {
    changes_.push_back({std::move(words), std::move(edit), std::move(garden), std::nullopt});
    return changes_.back();
  }

  std::vector<int> rows() const {
    std::vector<int> out;
    for (std::size_t run = 0; run < garden_.runs.size(); ++run) {
      if (garden_.runs[run].emitters && in_zone(garden_, garden_.runs[run].element, zone_))
        out.push_back(static_cast<int>(run));
    }
    return out;
  }

  // "bed 'tomatoes' and bed 'greens'", each once.
  std::string elements_of(const std::vector<int>& runs) const {
    std::vector<std::string> names;
    for (const int run : runs) {
      const std::string& name = garden_.elements[garden_.runs[run].element].name;
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return listed(names);
  }

  void other_regulator() {
    for (const int psi : {25, 20, 15, 10}) {
      const Pressure setting{std::llround(psi * 6894.757)};
      const Pressure now = practice_.regulator_drip.value;
      if (setting.pa == now.pa || (garden_.source.static_pressure && setting.pa >= garden_.source.static_pressure->pa))
        continue;
      const std::string text = pressure_text(psi * 6894.757, units_);
      add("set the pressure regulator to " + text, fmt::format("practice file: head: {{regulator, drip: {}}}", text),
          garden_)
          .regulator = setting;
    }
  }

  void next_size() {
    const std::vector<const NominalSize*> sizes = sizes_to_choose(garden_, practice_);
    const FlowPaths paths = flow_paths(garden_);
    Garden larger = garden_;
    std::vector<std::string> edits;
    for (std::size_t run = 0; run < garden_.runs.size(); ++run) {
      if (!is_main(garden_.runs[run].role)) continue;
      const auto at = std::find_if(sizes.begin(), sizes.end(),
                                   [&](const NominalSize* size) { return size->name == sized_.runs[run].size; });
      if (at == sizes.end() || at + 1 == sizes.end()) continue;
      set_size(larger, paths, static_cast<int>(run), (*(at + 1))->name);
      larger.runs[run].size_given = true;
      edits.push_back(garden_.runs[run].name + ": " + (*(at + 1))->name);
    }
    if (!edits.empty())
      add("take the next size of tubing for lines and headers (" + listed(edits) + ")",
          "size or header size: " + listed(edits), std::move(larger));
  }

  void header_from_middle() {
    Garden moved = garden_;
    std::vector<std::string> names;
    for (std::size_t run = 0; run < garden_.runs.size(); ++run) {
      const int element = garden_.runs[run].element;
      if (!in_zone(garden_, element, zone_) || !feed_header_from_middle(moved, static_cast<int>(run))) continue;
      names.push_back(garden_.elements[element].name);
    }
    if (!names.empty())
      add("feed the header of " + listed(names) + " from its middle", "in " + listed(names) + ": feed at: middle",
          std::move(moved));
  }

  void split(int parts) {
    const std::vector<std::vector<int>> groups = balanced_groups(garden_, zone_, parts);
    if (static_cast<int>(groups.size()) != parts) return;
    Garden zoned = garden_;
    std::vector<std::string> said;
    std::vector<std::string> zones;
    for (int part = 0; part < parts; ++part) {
      int zone = zone_;
      if (part > 0) {
        zone = static_cast<int>(zoned.zones.size());
        zoned.zones.push_back(garden_.zones[zone_]);
        zoned.zones.back().elements.clear();
      }
      zoned.zones[zone].name = fmt::format("{} {}", garden_.zones[zone_].name, part + 1);
      std::vector<std::string> names, own;
      for (const int element : groups[part]) {
        zoned.elements[element].zone = zone;
        names.push_back(garden_.elements[element].name);
        own.push_back(own_name(names.back()));
      }
      said.push_back(listed(names));
      zones.push_back(fmt::format("{}: [{}]", zoned.zones[zone].name, fmt::join(own, ", ")));
    }
    add(fmt::format("run it as {} zones, one after another: {}", parts, fmt::join(said, " / ")),
        fmt::format("zones: {{{}}}", fmt::join(zones, ", ")), std::move(zoned));
  }

  void rows_from_middle() {
    Garden halved = garden_;
    for (const int run : rows()) halve_row(halved, run);
    if (!rows().empty()) {
      add("halve the rows of " + elements_of(rows()) + ": two beds of half the length, fed between them",
          "give each of these beds half its length, with a like one beside it, and the headers where they meet",
          std::move(halved));
    }
  }

  void compensating() {
    Garden other = garden_;
    std::vector<int> changed;
    for (const int run : rows()) {
      EmitterLaw& law = *other.runs[run].emitters;
      if (law.compensating || garden_.runs[run].role == LegRole::tape) continue;
      law.compensating = true, law.exponent = 0;
      law.least = practice_.compensating_least.value, law.most = practice_.compensating_most.value;
      changed.push_back(run);
    }
    if (!changed.empty()) {
      add("use compensating emitter line in " + elements_of(changed),
          "in " + elements_of(changed) + ": emitter line: {compensating: yes}", std::move(other));
    }
  }

  void less_flow() {
    Garden other = garden_;
    std::vector<std::string> flows;
    for (const int run : rows()) {
      Flow& rated = other.runs[run].emitters->rated;
      const std::string was = to_text(rated, units_);
      rated.nl_per_h /= 2;
      const std::string text = to_text(rated, units_) + " instead of " + was;
      if (std::find(flows.begin(), flows.end(), text) == flows.end()) flows.push_back(text);
    }
    if (!rows().empty()) {
      add("use line with emitters of half the flow in " + elements_of(rows()) + " (" + listed(flows) +
              "), and water twice as long",
          "in " + elements_of(rows()) + ": flow: " + listed(flows), std::move(other));
    }
  }

  void wider_spacing() {
    Garden other = garden_;
    std::vector<std::string> spacings;
    for (const int run : rows()) {
      Run& row = other.runs[run];
      row.emitter_spacing = row.emitter_spacing * 2;
      row.emitter_count = std::max<std::int64_t>(1, row.emitter_count / 2);
      const std::string text = to_text(row.emitter_spacing, units_);
      if (std::find(spacings.begin(), spacings.end(), text) == spacings.end()) spacings.push_back(text);
    }
    if (!rows().empty()) {
      add("use line with half as many emitters in " + elements_of(rows()) + " (every " + listed(spacings) + ")",
          "in " + elements_of(rows()) + ": spacing: " + listed(spacings), std::move(other));
    }
  }

  const Garden& garden_;
  const Garden& sized_;
  int zone_;
  const Practice& practice_;
  UnitSystem units_;
  std::vector<Change> changes_;
};

}  // namespace

std::vector<Change> changes_for(const Garden& laid_out, const Garden& sized, int zone, const Practice& practice,
                                UnitSystem units) {
  return Changer(laid_out, sized, zone, practice, units).all();
}

}  // namespace teetally::hydraulics
