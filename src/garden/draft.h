#pragma once
// A Draft is the garden before joints: every run as paths through space, with what stands at their ends. The
// network is built from it: ends that meet become nodes, paths become legs.
#include <map>
#include <string>
#include <vector>

#include "garden/geometry.h"
#include "teetally/garden.h"

namespace teetally::garden {

// One unbroken stretch of a run; roles and places are those of its legs, one fewer than its points.
struct Path {
  int run = -1;
  std::vector<Point> at;
  std::vector<LegRole> roles;
  std::vector<Place> places;
  int outlet = -1;  // index into Garden::devices: stands at the path's end, where nothing else joins
};

// A line as it was walked, for anchors on it.
struct LineRoute {
  std::vector<Point> at;
  int run = -1;
};

// A design that asks for more is refused; drafting stops once it is passed.
inline constexpr std::size_t kMostRuns = 20000;

struct Draft {
  Garden garden;  // elements, runs and devices; no nodes, legs or fittings yet
  std::vector<Path> paths;
  std::map<std::string, LineRoute> lines;  // by name, once laid out
  std::map<std::string, Point> points;     // by name
  std::vector<int> valve_runs;             // runs that want a shut-off valve on their first leg
};

struct Laying {
  const Site& site;
  const Practice& practice;
  Diagnostics& diagnostics;
  Draft& draft;
};

int add_element(Draft& draft, const std::string& kind, const std::string& name, bool existing, const Place& place);
// Appends a point; a step of no length is dropped.
void extend(Path& path, Point to, LegRole role, const Place& place);

// Where an anchor is; `near` is what is fed. Diagnostics when it lies nowhere.
std::optional<Point> resolve(const Anchor& anchor, std::optional<Point> near, const Laying& laying);
std::optional<Nearest> nearest_on_line(const std::string& line, Point near, const Draft& draft);

// Each lays out one kind of element.
void draft_lines(const Laying& laying);
void draft_beds(const Laying& laying);
void draft_tape_rows(const Laying& laying);
void draft_containers(const Laying& laying);
void draft_sprays(const Laying& laying);

// Tubing and outlets as parts, without a size, and how they give water.
PartSpec plain_tubing(const std::string& size, const Practice& practice);
PartSpec drip_part(const DripTubing& tubing);
EmitterLaw drip_law(const DripTubing& tubing, const Practice& practice);
PartSpec outlet_part(const OutletSpec& outlet);
EmitterLaw outlet_law(const OutletSpec& outlet, const Practice& practice);
const NominalSize* find_size(const Practice& practice, const std::string& name);
// A diagnostic with the known sizes when a design names one that the practice file does not know.
void check_size(const std::string& size, const Place& place, const Laying& laying);
std::string feeder_size(const std::string& stated, const Laying& laying);

}  // namespace teetally::garden
