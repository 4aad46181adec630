#pragma once
// A design file and a practice file become a Site: what a person measured, with parameters filled in and
// repeats laid out, and nothing decided yet. File formats: docs/design-file.md, docs/practice-file.md.
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"

namespace teetally {

// A value and where it comes from, so that every default used can be shown.
template <typename T>
struct Setting {
  T value{};
  std::string origin;  // "shipped practice", "practice.yaml:12:3"
};

// What common practice says of one nominal tubing size: used for sizing and its rule of thumb.
struct NominalSize {
  std::string name;    // "1/2 in"
  std::string series;  // "inch" or "metric": sizes of two series are never chosen for one garden
  std::string use;     // "supply", "small" (feeders and rows) or "tape": only "supply" is chosen for lines
  Diameter inside;     // typical, for computing before a family is bought
  Length longest;      // rule of thumb: longest run
  Flow most;           // rule of thumb: largest flow
  Length least_bend;   // radius it bends to unaided
  std::string origin;  // as a Setting's
  Place place;
};

struct Practice {
  std::vector<NominalSize> sizes;  // smallest first
  Setting<Percent> tubing_waste, row_waste, tape_waste, feeder_waste;
  Setting<Percent> fitting_spares;                  // of each kind of fitting, rounded up
  Setting<std::int64_t> spare_couplings;            // of each supply size
  Setting<std::int64_t> spare_hole_plugs;           // per started 100 take-offs and punched emitters
  Setting<Length> hold_down_supply, hold_down_row;  // greatest spacing
  Setting<Length> least_joined;                     // no part of a joined piece of tubing is shorter
  Setting<Length> spare_offcut;                     // what is left of a coil is a spare from this length on
  Setting<double> elbow_from_degrees;               // a sharper turn needs an elbow
  Setting<double> straight_within_degrees;          // a smaller turn counts as straight on
  Setting<Length> bends_freely_within;              // tubing whose least bend is no more needs no elbow at all
  Setting<double> punch_below;    // tubing leaves larger tubing through its wall when its inside is less than this part
                                  // of the larger's
  Setting<Length> row_inset;      // outermost rows from the sides of the bed
  Setting<Length> row_end_inset;  // rows' far ends from the end of the bed
  Setting<Length> header_inset;   // header from the end of the bed
  Setting<Length> valve_distance;                   // valve from where its feed leaves the supply
  Setting<Length> sprayer_height;                   // sprayers above a bench
  Setting<std::string> feeder_inch, feeder_metric;  // feeder tubing where the design names none
  Setting<double> emitter_exponent;                 // where the design states none and the emitter is not compensating
  Setting<Pressure> emitter_rated_at, tape_rated_at, sprayer_rated_at;  // where the design states none
  Setting<Pressure> compensating_least, compensating_most;              // working range where the design states none
  Setting<Length> joining_tolerance;                                    // ends nearer than this are one node
  Setting<Length> crossing_clearance;       // runs crossing nearer than this in height are reported
  Setting<std::string> four_way;            // "cross" or "two tees"
  Setting<std::string> emitter_count_rule;  // "full spacings" (length / spacing, rounded down) or "from start" (+1)
  Setting<Percent> flow_margin;             // of the tested flow, kept in reserve
  Setting<Pressure> regulator_drip, regulator_tape;
  Setting<std::int64_t> filter_mesh_drip, filter_mesh_tape;
  Setting<bool> use_rule_of_thumb;
  Setting<double> water_celsius;
  Setting<double> most_velocity_m_per_s;
  std::map<std::string, Setting<std::string>> other;  // keys later stages read by name
};

struct OwnedPart {
  PartSpec part;
  std::int64_t count = 1;
  Length length;  // for kinds cut by length
  Place place;
};

struct SiteSource {
  std::string name = "tap";
  Length east, north, up;
  std::string thread;  // "3/4 in hose"
  std::optional<Pressure> static_pressure;
  std::optional<Flow> flow;  // stated, or from the bucket test
  std::string flow_origin;   // "bucket test: 5 gal in 50 s"
  bool timer = false;
  bool injector = false;  // fertiliser or other chemical injection
  Place place;
};

// The rest of Site (lines, beds, containers, tape rows, sprays, zones as measured) is declared in
// teetally/design/site.h; only the garden stage reads it.
struct Site;

Practice shipped_practice();
// Overrides the shipped practice with what the file states.
Practice read_practice(const Source& source, Diagnostics& diagnostics);
Site read_design(const Source& source, const Vocabulary& vocabulary, const std::map<std::string, std::string>& set,
                 Diagnostics& diagnostics);

Json to_json(const Practice& practice);
Json to_json(const Site& site);

}  // namespace teetally

#include "teetally/design/site.h"
