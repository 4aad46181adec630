#include "teetally/hydraulics/run_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "hydraulics/wording.h"

namespace teetally {
namespace hydraulics {
namespace {

constexpr double kSquareFoot = 0.3048 * 0.3048;
// Drip: above 90 % (Colorado State University Extension 4.702), 90 to 95 % (Washington State University FS030E).
constexpr double kUsualEfficiency = 0.9;

double in_mm(Length length) { return static_cast<double>(length.tenths_mm) / 10; }

// "12 ft2" or "1.2 m2", in square metres.
std::optional<double> parse_area(const std::string& text) {
  const std::size_t space = text.find(' ');
  if (space == std::string::npos) return std::nullopt;
  const auto number = parse_number(text.substr(0, space));
  const std::string unit = text.substr(space + 1);
  if (!number || *number <= 0) return std::nullopt;
  if (unit == "m2") return *number;
  if (unit == "ft2") return *number * kSquareFoot;
  return std::nullopt;
}

std::optional<double> parse_depth(const std::string& text) {
  const auto length = parse_length(text, {});
  if (!length || *length <= Length{}) return std::nullopt;
  return in_mm(*length);
}

// A number from 0 to `most`, not 0 itself.
template <int most>
std::optional<double> parse_up_to(const std::string& text) {
  const auto number = parse_number(text);
  if (!number || *number <= 0 || *number > most) return std::nullopt;
  return *number;
}

std::optional<double> parse_share(const std::string& text) {
  const auto percent = parse_percent(text);
  if (!percent || percent->ppm <= 0 || percent->ppm > 1'000'000) return std::nullopt;
  return static_cast<double>(percent->ppm) / 1e6;
}

// The watering settings of one zone.
class Wishes {
 public:
  Wishes(const Practice& practice, std::string zone, Diagnostics& diagnostics)
      : practice_(practice), zone_(std::move(zone)), diagnostics_(diagnostics) {}

  struct Found {
    std::string text, origin;
  };
  std::optional<Found> find(const std::string& key) const {
    for (const std::string& name : {key + ", " + zone_, key}) {
      const auto at = practice_.other.find(name);
      if (at != practice_.other.end()) return Found{at->second.value, at->second.origin};
    }
    return std::nullopt;
  }

  template <typename Parse>
  std::optional<double> value(const std::string& key, const Parse& parse, const std::string& expected) const {
    const auto found = find(key);
    if (!found) return std::nullopt;
    const std::optional<double> value = parse(found->text);
    if (!value) complain(key, *found, expected);
    return value;
  }

  void complain(const std::string& key, const Found& found, const std::string& expected) const {
    const std::string message =
        quoted(key) + " is " + quoted(found.text) + " in the practice (" + found.origin + "), expected " + expected;
    const std::vector<Diagnostic> said = diagnostics_.in_order();  // a key may hold for several zones
    if (std::any_of(said.begin(), said.end(), [&](const Diagnostic& one) { return one.message == message; })) return;
    diagnostics_.error("hydraulics/bad-setting", Place{}, message).help = "docs/run-time.md shows every key";
  }

 private:
  const Practice& practice_;
  std::string zone_;
  Diagnostics& diagnostics_;
};

std::string depth_text(double mm, UnitSystem units) {
  return units == UnitSystem::metric ? number_text(mm) + " mm" : number_text(mm / 25.4) + " in";
}

bool read_depth(const Wishes& wishes, UnitSystem units, ZoneRun& run) {
  if (const auto mm = wishes.value("water a week", parse_depth, "a depth, for example 1 in or 25 mm")) {
    run.wanted_mm = *mm;
    run.wanted_words = fmt::format("{} a week ({})", depth_text(*mm, units), wishes.find("water a week")->origin);
    return true;
  }
  const auto reference = wishes.value("reference evapotranspiration", parse_depth, "a depth a day, for example 5 mm");
  const auto crop = wishes.value("crop coefficient", parse_up_to<3>, "a number above 0, at most 3");
  if (!reference || !crop) return false;
  run.wanted_mm = crop_mm_per_week(*reference, *crop);
  run.wanted_words = fmt::format("{} a week: reference evapotranspiration {} a day ({}) times crop coefficient {} ({})",
                                 depth_text(run.wanted_mm, units), depth_text(*reference, units),
                                 wishes.find("reference evapotranspiration")->origin, number_text(*crop),
                                 wishes.find("crop coefficient")->origin);
  return true;
}

EfficiencyRule read_efficiency(const Wishes& wishes, const ZoneHydraulics& zone, ZoneRun& run) {
  EfficiencyRule rule = EfficiencyRule::divide;
  if (const auto found = wishes.find("efficiency rule")) {
    if (found->text == "add shortfall") {
      rule = EfficiencyRule::add_shortfall;
    } else if (found->text != "divide") {
      wishes.complain("efficiency rule", *found, "divide or add shortfall");
    }
  }
  const auto found = wishes.find("application efficiency");
  std::string what = "application efficiency", origin = "drip: 90 % and more, university extensions";
  run.efficiency = kUsualEfficiency;
  if (found && found->text == "uniformity") {
    run.efficiency = zone.uniformity_percent / 100;
    what = "emission uniformity, as computed,";
    origin = found->origin;
  } else if (const auto share =
                 wishes.value("application efficiency", parse_share, "a percentage, or the word uniformity")) {
    run.efficiency = *share;
    origin = found->origin;
  }
  const std::string done =
      rule == EfficiencyRule::divide ? "the depth is divided by it" : "the depth grows by what it lacks of 100 %";
  run.efficiency_words = fmt::format("{} {} ({}); {}", percent_text(run.efficiency), what, origin, done);
  return rule;
}

// What an element covers, by its name in the garden; containers and single sprayers cover what nobody stated.
std::map<std::string, double> areas_of(const Site& site) {
  std::map<std::string, double> areas;
  for (const Bed& bed : site.beds)
    areas["bed " + quoted(bed.name)] = in_metres(bed.east_west) * in_metres(bed.north_south);
  for (const TapeRows& rows : site.tape_rows) {
    const double width = in_metres(rows.spacing) * static_cast<double>(rows.count);
    if (width > 0) areas["tape rows " + quoted(rows.name)] = width * in_metres(rows.length);
  }
  return areas;
}

// As the tap gives it: of rows, and of single outlets by what their feeder tubing carries.
double flow_of_zone(const SizedGarden& sized, int zone) {
  const Garden& garden = sized.garden;
  double flow = 0;
  for (const RowHydraulics& row : sized.rows) {
    if (garden.elements[garden.runs[row.run].element].zone == zone) flow += row.flow_m3_per_s;
  }
  for (const RunHydraulics& run : sized.runs) {
    const Run& laid = garden.runs[run.run];
    if (laid.role == LegRole::feeder && garden.elements[laid.element].zone == zone) flow += run.flow_m3_per_s;
  }
  return flow;
}

// Area and the flow onto it. A stated area is the whole zone's.
void find_area(const Wishes& wishes, const std::map<std::string, double>& areas, const SizedGarden& sized,
               std::size_t zone, ZoneRun& run) {
  const Garden& garden = sized.garden;
  if (const auto stated = wishes.value("wetted area", parse_area, "an area, for example 12 ft2 or 1.2 m2")) {
    run.m2 = *stated;
    run.flow_m3_per_s = flow_of_zone(sized, static_cast<int>(zone));
    return;
  }
  std::set<int> counted;
  for (const RowHydraulics& row : sized.rows) {
    const int element = garden.runs[row.run].element;
    if (garden.elements[element].zone != static_cast<int>(zone)) continue;
    const auto area = areas.find(garden.elements[element].name);
    if (area == areas.end()) continue;
    if (counted.insert(element).second) run.m2 += area->second;
    run.flow_m3_per_s += row.flow_m3_per_s;
  }
  std::vector<std::string> without;
  for (const Element& element : garden.elements) {
    const bool gives = element.kind != "line" && element.kind != "source";
    if (element.zone == static_cast<int>(zone) && gives && areas.count(element.name) == 0)
      without.push_back(element.name);
  }
  if (!without.empty() && run.m2 > 0) {
    run.notes.push_back("reckoned for the rows; " + listed(without) + " runs as long, see whether that suits it");
  }
}

void read_soil(const Wishes& wishes, ZoneRun& run, WateringWish& wish) {
  const auto available = wishes.value("soil holds", parse_up_to<1>, "mm of water in a mm of soil, for example 0.17");
  const auto roots = wishes.value("root depth", parse_depth, "a depth, for example 12 in");
  const auto used = wishes.value("part used", parse_share, "a percentage");
  if (!available || !roots || !used) return;
  run.soil_minutes = minutes_soil_holds(*available, *roots, *used, run.m2, run.flow_m3_per_s);
  wish.minutes_soil_holds = run.soil_minutes;
}

void note_what_stands_out(const WateringWish& wish, ZoneRun& run) {
  if (run.time.soil_overfull) {
    run.notes.push_back(
        fmt::format("even {} starts a week give more at once than the soil holds", run.time.starts_per_week));
  }
  if (run.time.minutes_per_week > 7 * 24 * 60)
    run.notes.push_back("a week has no time for it: water less area at once");
  if (!wish.minutes_soil_holds)
    run.notes.push_back("the soil is not described, so all is given in as few starts as are stated");
}

class CardMaker {
 public:
  CardMaker(const Site& site, const SizedGarden& sized, const Practice& practice, UnitSystem units,
            Diagnostics& diagnostics)
      : site_(site), sized_(sized), practice_(practice), units_(units), diagnostics_(diagnostics) {}

  void fill(RunCard& card) {
    const std::map<std::string, double> areas = areas_of(site_);
    for (std::size_t i = 0; i < sized_.garden.zones.size(); ++i) {
      ZoneRun run;
      run.zone = sized_.garden.zones[i].name;
      if (make(i, areas, run)) card.zones.push_back(std::move(run));
    }
    card.left_out = without_area_;
  }

 private:
  bool make(std::size_t zone, const std::map<std::string, double>& areas, ZoneRun& run) {
    const Wishes wishes(practice_, run.zone, diagnostics_);
    if (!read_depth(wishes, units_, run)) {
      if (!a_value_was_misread()) say_no_depth(run.zone);
      return false;
    }
    find_area(wishes, areas, sized_, zone, run);
    if (run.m2 <= 0) {
      say_no_area(zone);
      without_area_.push_back(run.zone);
      return false;
    }
    WateringWish wish;
    wish.rule = read_efficiency(wishes, sized_.zones[zone], run);
    read_soil(wishes, run, wish);
    wish.mm_per_week = run.wanted_mm;
    wish.wetted_m2 = run.m2;
    wish.flow_m3_per_s = run.flow_m3_per_s;
    wish.efficiency = run.efficiency;
    const auto most = wishes.value("most starts a week", parse_up_to<70>, "a number from 1 to 70");
    const auto least = wishes.value("starts a week", parse_up_to<70>, "a number from 1 to 70");
    wish.days_per_week = static_cast<int>(most.value_or(7));
    wish.least_starts = static_cast<int>(least.value_or(1));
    run.mm_per_h = rate_mm_per_h(run.flow_m3_per_s, run.m2);
    run.time = watering_time(wish);
    note_what_stands_out(wish, run);
    return true;
  }

  // A depth for all zones is complained of once, with the first of them.
  bool a_value_was_misread() const {
    const std::vector<Diagnostic> said = diagnostics_.in_order();
    return std::any_of(said.begin(), said.end(), [](const auto& one) { return one.slug == "hydraulics/bad-setting"; });
  }

  void say_no_depth(const std::string& zone) {
    diagnostics_
        .error("hydraulics/no-depth", Place{},
               "the practice does not say how much water zone " + quoted(zone) +
                   " is to get; expected 'water a week', or "
                   "'reference evapotranspiration' and 'crop coefficient'")
        .help = units_ == UnitSystem::metric ? "in a practice file, for example  other: {water a week: 25 mm}"
                                             : "in a practice file, for example  other: {water a week: 1 in}";
  }

  void say_no_area(std::size_t zone) {
    const Zone& at = sized_.garden.zones[zone];
    diagnostics_
        .warning("hydraulics/no-wetted-area", at.place,
                 "zone " + quoted(at.name) + " has no bed or tape rows, so nobody knows what area it waters")
        .help = "in a practice file, for example  other: {\"wetted area, " + at.name +
                "\": " + (units_ == UnitSystem::metric ? "0.5 m2}" : "6 ft2}");
  }

  const Site& site_;
  const SizedGarden& sized_;
  const Practice& practice_;
  UnitSystem units_;
  Diagnostics& diagnostics_;
  std::vector<std::string> without_area_;  // names of zones
};

}  // namespace
}  // namespace hydraulics

RunCard run_card(const Site& site, const SizedGarden& sized, const Practice& practice, UnitSystem units,
                 Diagnostics& diagnostics) {
  RunCard card;
  card.name = sized.garden.name;
  card.verdict = sized.verdict;
  card.words = sized.words;
  hydraulics::CardMaker(site, sized, practice, units, diagnostics).fill(card);
  card.cautions = {
      "These are estimates from the figures given. Rain counts too: look at the soil a hand deep, and "
      "water less when it is still moist.",
      "Local rules may say on which days and at what hours watering is allowed."};
  return card;
}

Json to_json(const RunCard& card) {
  Json zones = Json::array();
  for (const ZoneRun& run : card.zones) {
    Json notes = Json::array();
    for (const std::string& note : run.notes) notes.push(note);
    Json json = Json::object();
    json.set("zone", run.zone)
        .set("wanted_mm", run.wanted_mm)
        .set("m2", run.m2)
        .set("flow_m3_per_s", run.flow_m3_per_s)
        .set("efficiency", run.efficiency)
        .set("minutes_per_week", run.time.minutes_per_week)
        .set("starts_per_week", run.time.starts_per_week)
        .set("minutes_per_start", run.time.minutes_per_start)
        .set("notes", std::move(notes));
    zones.push(std::move(json));
  }
  return Json::object().set("name", card.name).set("zones", std::move(zones));
}

}  // namespace teetally
