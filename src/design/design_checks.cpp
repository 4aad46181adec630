#include "design/design_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>

namespace teetally::design {

namespace {

struct Names {
  std::map<std::string, Place> all;           // every element, point and the tap
  std::map<std::string, std::size_t> lines;   // index into Site::lines
  std::map<std::string, std::size_t> points;  // the line that names it while walking; npos: stands alone
};
constexpr std::size_t kAlone = static_cast<std::size_t>(-1);

void claim(const std::string& name, const Place& place, Names& names, Diagnostics& diagnostics) {
  if (name.empty()) return;
  const auto [known, fresh] = names.all.emplace(name, place);
  if (fresh) return;
  Diagnostic& diagnostic =
      diagnostics.error("design/duplicate-name", place, fmt::format("the name {} is used twice", quoted(name)));
  diagnostic.help = "every line, bed, container, spray and point has its own name";
  diagnostic.notes.push_back({"first used here", known->second});
}

Names collect(const Site& site, Diagnostics& diagnostics) {
  Names names;
  claim(site.source.name, site.source.place, names, diagnostics);
  for (const NamedPoint& point : site.points) {
    claim(point.name, point.place, names, diagnostics);
    names.points.emplace(point.name, kAlone);
  }
  for (std::size_t i = 0; i < site.lines.size(); ++i) {
    claim(site.lines[i].name, site.lines[i].place, names, diagnostics);
    if (!site.lines[i].name.empty()) names.lines.emplace(site.lines[i].name, i);
    for (const WalkStep& step : site.lines[i].walk) {
      if (step.as.empty()) continue;
      claim(step.as, step.place, names, diagnostics);
      names.points.emplace(step.as, i);
    }
  }
  for (const Bed& bed : site.beds) claim(bed.name, bed.place, names, diagnostics);
  for (const Containers& each : site.containers) claim(each.name, each.place, names, diagnostics);
  for (const TapeRows& rows : site.tape_rows) claim(rows.name, rows.place, names, diagnostics);
  for (const Sprays& sprays : site.sprays) claim(sprays.name, sprays.place, names, diagnostics);
  return names;
}

void unknown_name(const std::string& name, const Place& place, std::string_view expected,
                  const std::vector<std::string>& known, Diagnostics& diagnostics) {
  Diagnostic& diagnostic =
      diagnostics.error("design/unknown-name", place, fmt::format("expected {}, found {}", expected, quoted(name)));
  if (const auto near = nearest_word(name, known)) {
    diagnostic.help = "did you mean " + quoted(*near) + "?";
  } else if (!known.empty() && known.size() <= 12) {
    diagnostic.help = (known.size() == 1 ? "known is " : "known are ") + listed(known);
  }
}

template <typename Value>
std::vector<std::string> keys(const std::map<std::string, Value>& map) {
  std::vector<std::string> names;
  for (const auto& [name, value] : map) names.push_back(name);
  return names;
}

void settle(Anchor& anchor, const SiteSource& source, const Names& names, Diagnostics& diagnostics) {
  using Form = Anchor::Form;
  if (anchor.form == Form::source || anchor.form == Form::at) return;
  if (anchor.form != Form::named) {
    if (!names.lines.count(anchor.name)) {
      unknown_name(anchor.name, anchor.place, "the name of a line", keys(names.lines), diagnostics);
    }
    return;
  }
  if (anchor.name == source.name) {
    anchor.form = Form::source;
  } else if (names.lines.count(anchor.name)) {
    anchor.form = Form::nearest;
  } else if (!names.points.count(anchor.name)) {
    std::vector<std::string> known = keys(names.lines);
    for (const std::string& point : keys(names.points)) known.push_back(point);
    unknown_name(anchor.name, anchor.place, "'tap', a line or a point", known, diagnostics);
  }
}

void settle_rows_from(const std::string& line, const Place& place, const Names& names, Diagnostics& diagnostics) {
  if (line.empty() || names.lines.count(line)) return;
  unknown_name(line, place, "the name of a line in 'rows from'", keys(names.lines), diagnostics);
}

void settle_anchors(Site& site, const Names& names, Diagnostics& diagnostics) {
  for (SupplyLine& line : site.lines) {
    settle(line.from, site.source, names, diagnostics);
    for (WalkStep& step : line.walk) {
      if (step.to) settle(*step.to, site.source, names, diagnostics);
    }
  }
  for (Bed& bed : site.beds) {
    settle(bed.feed, site.source, names, diagnostics);
    settle_rows_from(bed.rows_from, bed.place, names, diagnostics);
  }
  for (Containers& each : site.containers) settle(each.feed, site.source, names, diagnostics);
  for (TapeRows& rows : site.tape_rows) {
    settle(rows.feed, site.source, names, diagnostics);
    settle_rows_from(rows.rows_from, rows.place, names, diagnostics);
  }
  for (Sprays& sprays : site.sprays) settle(sprays.feed, site.source, names, diagnostics);
}

// The lines that a line's start and steps refer to; its own steps may refer to itself.
std::vector<std::pair<std::size_t, Place>> needed_by(const Site& site, std::size_t index, const Names& names) {
  std::vector<std::pair<std::size_t, Place>> needed;
  const auto add = [&](const Anchor& anchor, bool start) {
    if (anchor.form == Anchor::Form::source || anchor.form == Anchor::Form::at) return;
    std::size_t line = kAlone;
    if (anchor.form == Anchor::Form::named && names.points.count(anchor.name)) {
      line = names.points.at(anchor.name);
    } else if (names.lines.count(anchor.name)) {
      line = names.lines.at(anchor.name);
    }
    if (line != kAlone && (start || line != index)) needed.emplace_back(line, anchor.place);
  };
  add(site.lines[index].from, true);
  for (const WalkStep& step : site.lines[index].walk) {
    if (step.to) add(*step.to, false);
  }
  return needed;
}

void check_circles(const Site& site, const Names& names, Diagnostics& diagnostics) {
  enum class State { fresh, busy, done };
  std::vector<State> state(site.lines.size(), State::fresh);
  const std::function<void(std::size_t)> visit = [&](std::size_t index) {
    state[index] = State::busy;
    for (const auto& [line, place] : needed_by(site, index, names)) {
      if (state[line] == State::fresh) visit(line);
      if (state[line] != State::busy) continue;
      Diagnostic& diagnostic =
          diagnostics.error("design/circular-line", place,
                            line == index ? fmt::format("line {} starts from itself", quoted(site.lines[index].name))
                                          : fmt::format("line {} needs line {}, which needs it in turn",
                                                        quoted(site.lines[index].name), quoted(site.lines[line].name)));
      diagnostic.help = "one of them must start at the tap, at a position, or on a line that is laid out already";
      if (line != index) diagnostic.notes.push_back({"the other line", site.lines[line].place});
    }
    state[index] = State::done;
  };
  for (std::size_t i = 0; i < site.lines.size(); ++i) {
    if (state[i] == State::fresh) visit(i);
  }
}

using Elements = std::map<std::string, std::pair<std::string, Place>>;  // name -> kind

Elements elements_of(const Site& site) {
  Elements elements;
  for (const SupplyLine& line : site.lines) elements[line.name] = {"line", line.place};
  for (const Bed& bed : site.beds) elements[bed.name] = {"bed", bed.place};
  for (const Containers& each : site.containers) elements[each.name] = {"container", each.place};
  for (const TapeRows& rows : site.tape_rows) elements[rows.name] = {"tape rows", rows.place};
  for (const Sprays& sprays : site.sprays) elements[sprays.name] = {"spray", sprays.place};
  elements.erase("");
  return elements;
}

// Lines may stay out of the zones: they belong to what hangs on them.
void check_zones(const Site& site, Diagnostics& diagnostics) {
  if (site.zones.empty()) return;
  const Elements elements = elements_of(site);
  std::map<std::string, const SiteZone*> zone_of;
  for (const SiteZone& zone : site.zones) {
    for (const ZoneMember& member : zone.members) {
      if (!elements.count(member.name)) {
        unknown_name(member.name, member.place, "the name of an element", keys(elements), diagnostics);
        continue;
      }
      const auto [known, fresh] = zone_of.emplace(member.name, &zone);
      if (fresh) continue;
      Diagnostic& diagnostic =
          diagnostics.error("design/in-two-zones", member.place,
                            fmt::format("{} is in zone {} already", quoted(member.name), quoted(known->second->name)));
      diagnostic.help = "every element runs in exactly one zone";
      diagnostic.notes.push_back({"the other zone", known->second->place});
    }
  }
  for (const auto& [name, kind_and_place] : elements) {
    if (kind_and_place.first == "line" || zone_of.count(name)) continue;
    diagnostics
        .error("design/in-no-zone", kind_and_place.second,
               fmt::format("{} {} is in no zone", kind_and_place.first, quoted(name)))
        .help = "add it to one of the zones, or leave out 'zones' to run everything together";
  }
}

}  // namespace

void settle_names(Site& site, Diagnostics& diagnostics) {
  const Names names = collect(site, diagnostics);
  settle_anchors(site, names, diagnostics);
  check_circles(site, names, diagnostics);
  check_zones(site, diagnostics);
}

}  // namespace teetally::design
