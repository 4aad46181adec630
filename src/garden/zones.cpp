#include "garden/zones.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace teetally::garden {

namespace {

// For every run: where it starts, how far that is, and the run it hangs on (-1: the source).
struct Hanging {
  int start = -1;
  Length away;
  int parent = -1;
};

std::vector<Hanging> hang(const Garden& garden, const Reach& reach) {
  std::vector<Hanging> runs(garden.runs.size());
  for (const Leg& leg : garden.legs) {
    const auto from = static_cast<std::size_t>(leg.from);
    if (!reach.reached[from]) continue;
    Hanging& run = runs[static_cast<std::size_t>(leg.run)];
    if (run.start >= 0 && run.away <= reach.away[from]) continue;
    run.start = leg.from;
    run.away = reach.away[from];
    const int by = reach.by_leg[from];
    run.parent = by < 0 ? -1 : garden.legs[static_cast<std::size_t>(by)].run;
  }
  return runs;
}

using ZoneSet = std::set<int>;

class ZoneMaker {
 public:
  ZoneMaker(const Site& site, Garden& garden, int source, const Practice& practice, Diagnostics& diagnostics)
      : site_(site),
        garden_(garden),
        source_(source),
        practice_(practice),
        diagnostics_(diagnostics),
        reach_(reach_from(garden, source)),
        hanging_(hang(garden, reach_)),
        zones_of_(garden.elements.size()) {}

  void make() {
    if (site_.zones.empty()) {
      garden_.zones.push_back({"all", {}, source_, site_.place});
      for (ZoneSet& zones : zones_of_) zones = {0};
    } else {
      read_members();
      pass_up();
    }
    settle();
    check_starts();
    if (garden_.zones.size() > 1) part_zones();
  }

 private:
  Element& element(int index) { return garden_.elements[static_cast<std::size_t>(index)]; }
  ZoneSet& zones_of(int index) { return zones_of_[static_cast<std::size_t>(index)]; }
  bool shared(int index) { return zones_of(index).size() > 1; }

  void read_members() {
    std::map<std::string, int> zone_of;
    for (const SiteZone& zone : site_.zones) {
      for (const ZoneMember& member : zone.members) zone_of[member.name] = static_cast<int>(garden_.zones.size());
      garden_.zones.push_back({zone.name, {}, source_, zone.place});
    }
    for (std::size_t i = 0; i < garden_.elements.size(); ++i) {
      // An element's name is its kind and its own name in quotes.
      const std::string& name = garden_.elements[i].name;
      const std::size_t open = name.find('\'');
      const auto found = zone_of.find(name.substr(open + 1, name.size() - open - 2));
      if (found != zone_of.end()) zones_of_[i] = {found->second};
      listed_.push_back(found != zone_of.end());
    }
  }

  // From the farthest run to the nearest, each tells the line it hangs on.
  void pass_up() {
    std::vector<int> order(hanging_.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
      return hanging_[static_cast<std::size_t>(a)].away > hanging_[static_cast<std::size_t>(b)].away;
    });
    for (const int run : order) {
      const int parent = hanging_[static_cast<std::size_t>(run)].parent;
      if (parent < 0) continue;
      const int child = garden_.runs[static_cast<std::size_t>(run)].element;
      const int above = garden_.runs[static_cast<std::size_t>(parent)].element;
      if (above == child || listed_[static_cast<std::size_t>(above)]) continue;
      zones_of(above).insert(zones_of(child).begin(), zones_of(child).end());
    }
  }

  void settle() {
    for (std::size_t i = 0; i < garden_.elements.size(); ++i) {
      const int zone = zones_of_[i].empty() ? 0 : *zones_of_[i].begin();
      garden_.elements[i].zone = zone;
      garden_.zones[static_cast<std::size_t>(zone)].elements.push_back(static_cast<int>(i));
    }
  }

  // A zone, or the lines that zones share, leaves the tap once.
  void check_starts() {
    std::map<ZoneSet, int> first;
    for (std::size_t i = 0; i < garden_.legs.size(); ++i) {
      const Leg& leg = garden_.legs[i];
      if (leg.from != source_ && leg.to != source_) continue;
      const auto [known, fresh] = first.emplace(zones_of(leg.element), leg.run);
      if (fresh) continue;
      const Run& one = garden_.runs[static_cast<std::size_t>(known->second)];
      const Run& other = garden_.runs[static_cast<std::size_t>(leg.run)];
      Diagnostic& diagnostic =
          diagnostics_.error("garden/two-starts", leg.place,
                             fmt::format("{} and {} both start at the tap and run together", one.name, other.name));
      diagnostic.help =
          fmt::format("let the second start on the first ('1 ft along {}'), or put them in two zones", one.name);
      diagnostic.notes.push_back({one.name + " starts here", one.place});
    }
  }

  // Runs that leave another zone's line, or a shared one, start with a zone valve.
  void part_zones() {
    std::map<int, int> branchings;  // by zone
    for (std::size_t i = 0; i < hanging_.size(); ++i) {
      const int parent = hanging_[i].parent;
      if (parent < 0) continue;
      const int self = garden_.runs[i].element, above = garden_.runs[static_cast<std::size_t>(parent)].element;
      if (self == above || shared(self)) continue;
      if (!shared(above) && element(self).zone == element(above).zone) continue;
      if (!shared(above)) warn_of_dependence(static_cast<int>(i), above);
      if (++branchings[element(self).zone] == 2) warn_of_many(static_cast<int>(i));
      add_valve(static_cast<int>(i));
    }
  }

  const std::string& zone_name(int element_index) {
    return garden_.zones[static_cast<std::size_t>(element(element_index).zone)].name;
  }

  void warn_of_dependence(int run, int above) {
    const Run& self = garden_.runs[static_cast<std::size_t>(run)];
    diagnostics_
        .warning("garden/zone-behind-zone", self.place,
                 fmt::format("zone {} leaves a line of zone {}: whenever it runs, that one runs too",
                             quoted(zone_name(self.element)), quoted(zone_name(above))))
        .help = "leave the line out of every zone to share it, or start this zone at the tap";
  }

  void warn_of_many(int run) {
    const Run& self = garden_.runs[static_cast<std::size_t>(run)];
    diagnostics_
        .warning("garden/zone-leaves-often", self.place,
                 fmt::format("zone {} leaves other lines in several places: each needs a zone valve",
                             quoted(zone_name(self.element))))
        .help = "give the zone a line of its own";
  }

  void add_valve(int run) {
    const Run& self = garden_.runs[static_cast<std::size_t>(run)];
    const Length least = practice_.joining_tolerance.value * 2;
    const int leg =
        self.role == LegRole::supply || self.role == LegRole::header ? leg_for_device(garden_, run, reach_, least) : -1;
    if (leg < 0) {
      diagnostics_
          .error("garden/no-zone-valve", self.place,
                 fmt::format("zone {} leaves another line here, and {} has no room for a zone valve",
                             quoted(zone_name(self.element)), self.name))
          .help = "give the zone a line of its own";
      return;
    }
    Device device;
    device.part.kind = "zone valve";
    device.element = self.element;
    device.rule = fmt::format("zone {} leaves a line that others use: zone valve", quoted(zone_name(self.element)));
    device.existing = self.existing;
    device.place = self.place;
    const Length length = garden_.legs[static_cast<std::size_t>(leg)].length;
    insert_device(garden_, leg, std::min(practice_.valve_distance.value, Length{length.tenths_mm / 2}),
                  std::move(device));
  }

  const Site& site_;
  Garden& garden_;
  int source_;
  const Practice& practice_;
  Diagnostics& diagnostics_;
  Reach reach_;
  std::vector<Hanging> hanging_;
  std::vector<ZoneSet> zones_of_;
  std::vector<bool> listed_;
};

}  // namespace

int leg_for_device(const Garden& garden, int run, const Reach& reach, Length least) {
  int best = -1;
  Length nearest;
  for (std::size_t i = 0; i < garden.legs.size(); ++i) {
    const Leg& leg = garden.legs[i];
    const auto from = static_cast<std::size_t>(leg.from);
    if (leg.run != run || (leg.role != LegRole::supply && leg.role != LegRole::riser)) continue;
    // Nodes that devices added are newer than what was reached.
    if (leg.length <= least || from >= reach.reached.size() || !reach.reached[from]) continue;
    if (best >= 0 && reach.away[from] >= nearest) continue;
    best = static_cast<int>(i);
    nearest = reach.away[from];
  }
  return best;
}

void assign_zones(const Site& site, Garden& garden, int source, const Practice& practice, Diagnostics& diagnostics) {
  ZoneMaker(site, garden, source, practice, diagnostics).make();
}

}  // namespace teetally::garden
