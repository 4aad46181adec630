#include "garden/draft.h"

#include <fmt/format.h>

namespace teetally::garden {

int add_element(Draft& draft, const std::string& kind, const std::string& name, bool existing, const Place& place) {
  Element element;
  element.name = kind + " " + quoted(name);
  element.kind = kind;
  element.existing = existing;
  element.place = place;
  draft.garden.elements.push_back(std::move(element));
  return static_cast<int>(draft.garden.elements.size()) - 1;
}

void extend(Path& path, Point to, LegRole role, const Place& place) {
  if (!path.at.empty() && path.at.back() == to) return;
  if (!path.at.empty()) {
    path.roles.push_back(role);
    path.places.push_back(place);
  }
  path.at.push_back(to);
}

std::optional<Nearest> nearest_on_line(const std::string& line, Point near, const Draft& draft) {
  const auto found = draft.lines.find(line);
  if (found == draft.lines.end()) return std::nullopt;
  const std::vector<Point>& at = found->second.at;
  if (at.size() == 1) return Nearest{at[0], 0, distance(near, at[0])};
  std::optional<Nearest> best;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Nearest here = nearest_on_segment(near, at[i], at[i + 1]);
    if (!best || here.away < best->away) best = here;
  }
  return best;
}

namespace {

Length length_of(const std::vector<Point>& at) {
  Length length;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) length += distance(at[i], at[i + 1]);
  return length;
}

std::optional<Point> point_along(const std::vector<Point>& at, Length along) {
  if (along < Length{}) return std::nullopt;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Length leg = distance(at[i], at[i + 1]);
    if (along <= leg) return toward(at[i], at[i + 1], along);
    along = along - leg;
  }
  return along == Length{} ? std::optional<Point>(at.back()) : std::nullopt;
}

std::optional<Point> resolve_along(const Anchor& anchor, const std::vector<Point>& at, const Laying& laying) {
  const std::optional<Point> point = point_along(at, anchor.along);
  if (point) return point;
  const UnitSystem units = laying.site.units;
  laying.diagnostics
      .error("garden/beyond-the-line", anchor.place,
             fmt::format("{} along {} lies beyond it: it is {} long", to_text(anchor.along, units), quoted(anchor.name),
                         to_text(length_of(at), units)))
      .help = fmt::format("name a distance from its start, or write 'end of {}'", anchor.name);
  return std::nullopt;
}

std::optional<Point> resolve_nearest(const Anchor& anchor, std::optional<Point> near, const Laying& laying) {
  if (near) return nearest_on_line(anchor.name, *near, laying.draft)->at;
  laying.diagnostics
      .error("garden/nearest-to-what", anchor.place,
             fmt::format("which point of {} is nearest depends on where this line goes, and its first step does not "
                         "say",
                         quoted(anchor.name)))
      .help = fmt::format("write '12 ft along {}', or let the first step go 'to' a place", anchor.name);
  return std::nullopt;
}

}  // namespace

std::optional<Point> resolve(const Anchor& anchor, std::optional<Point> near, const Laying& laying) {
  const Draft& draft = laying.draft;
  const SiteSource& source = laying.site.source;
  if (anchor.form == Anchor::Form::source) return Point{source.east, source.north, source.up};
  if (anchor.form == Anchor::Form::at) return anchor.at;
  if (anchor.form == Anchor::Form::named) {
    const auto point = draft.points.find(anchor.name);
    return point == draft.points.end() ? std::nullopt : std::optional<Point>(point->second);
  }
  // A line that could not be laid out has been complained about already.
  const auto line = draft.lines.find(anchor.name);
  if (line == draft.lines.end() || line->second.at.empty()) return std::nullopt;
  const std::vector<Point>& at = line->second.at;
  switch (anchor.form) {
    case Anchor::Form::start:
      return at.front();
    case Anchor::Form::end:
      return at.back();
    case Anchor::Form::middle:
      return point_along(at, Length{length_of(at).tenths_mm / 2});
    case Anchor::Form::along:
      return resolve_along(anchor, at, laying);
    default:
      return resolve_nearest(anchor, near, laying);
  }
}

const NominalSize* find_size(const Practice& practice, const std::string& name) {
  for (const NominalSize& size : practice.sizes) {
    if (size.name == name) return &size;
  }
  return nullptr;
}

void check_size(const std::string& size, const Place& place, const Laying& laying) {
  if (size.empty() || find_size(laying.practice, size)) return;
  std::vector<std::string> known;
  for (const NominalSize& each : laying.practice.sizes) known.push_back(each.name);
  Diagnostic& diagnostic = laying.diagnostics.error(
      "garden/unknown-size", place, fmt::format("the practice file knows no tubing size {}", quoted(size)));
  diagnostic.help = "known are " + listed(known) + "; add others under 'sizes' in a practice file";
}

std::string feeder_size(const std::string& stated, const Laying& laying) {
  if (!stated.empty()) return stated;
  return laying.site.series == "metric" ? laying.practice.feeder_metric.value : laying.practice.feeder_inch.value;
}

PartSpec plain_tubing(const std::string& size, const Practice& practice) {
  const NominalSize* known = find_size(practice, size);
  return {known && known->use == "small" ? "feeder tubing" : "supply tubing", {}};
}

PartSpec drip_part(const DripTubing& tubing) {
  PartSpec part;
  part.kind = tubing.tape ? "drip tape" : "emitter line";
  part.attributes["spacing"] = number_value(Dimension::length, tubing.spacing.tenths_mm);
  part.attributes["flow"] = number_value(Dimension::flow, tubing.flow.nl_per_h);
  if (tubing.compensating && !tubing.tape) part.attributes["compensating"] = word_value("yes");
  return part;
}

PartSpec outlet_part(const OutletSpec& outlet) {
  PartSpec part;
  part.kind = outlet.kind;
  part.attributes["flow"] = number_value(Dimension::flow, outlet.flow.nl_per_h);
  if (outlet.kind == "emitter" && outlet.compensating) part.attributes["compensating"] = word_value("yes");
  if (outlet.kind == "sprayer" && !outlet.pattern.empty()) part.attributes["pattern"] = word_value(outlet.pattern);
  return part;
}

namespace {

template <typename Outlet>
EmitterLaw law_of(const Outlet& outlet, Pressure usual, const Practice& practice) {
  EmitterLaw law;
  law.rated = outlet.flow;
  law.rated_at = outlet.rated_at > Pressure{} ? outlet.rated_at : usual;
  law.compensating = outlet.compensating;
  law.exponent = outlet.exponent.value_or(outlet.compensating ? 0.0 : practice.emitter_exponent.value);
  law.least = outlet.least.value_or(outlet.compensating ? practice.compensating_least.value : Pressure{});
  law.most = outlet.most.value_or(outlet.compensating ? practice.compensating_most.value : Pressure{});
  return law;
}

}  // namespace

EmitterLaw drip_law(const DripTubing& tubing, const Practice& practice) {
  return law_of(tubing, tubing.tape ? practice.tape_rated_at.value : practice.emitter_rated_at.value, practice);
}

EmitterLaw outlet_law(const OutletSpec& outlet, const Practice& practice) {
  const bool spray = outlet.kind != "emitter";
  return law_of(outlet, spray ? practice.sprayer_rated_at.value : practice.emitter_rated_at.value, practice);
}

}  // namespace teetally::garden
