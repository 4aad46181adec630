#pragma once
// A Site becomes a Garden: one three-dimensional network of nodes and legs, with the devices on it, the
// fittings its geometry asks for and the pieces of tubing between them. Fittings follow from geometry alone:
// one leg ends, two legs turn or run on, three are a tee, four a cross. Lengths are measured along the legs.
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/design.h"

namespace teetally {

// Who asked for a thing: an element of the design file ("bed 'tomatoes'") and where it stands.
struct Element {
  std::string name;       // unique: "bed 'tomatoes'", "line 'trunk'"
  std::string kind;       // "line", "bed", "container", "tape row", "spray", "source"
  int zone = 0;           // index into Garden::zones
  bool existing = false;  // its tubing and its own fittings are on the site already: they are no needs
  Place place;
};

// How an outlet gives water: q = rated * (h / rated_at)^exponent; exponent 0 between `least` and `most` when
// compensating.
struct EmitterLaw {
  Flow rated;
  Pressure rated_at;
  double exponent = 0.5;
  bool compensating = false;
  Pressure least, most;  // working range; zero when unknown
};

enum class LegRole {
  supply,  // from the source to the beds
  riser,   // stub, up and over a raised bed's side
  header,  // feeds the rows of a bed
  row,     // emitter line
  tape,    // drip tape
  feeder,  // small plain tubing to a container's emitter or a sprayer
};
std::string to_text(LegRole role);

struct Node {
  Point at;
  std::string label;  // "tap", "trunk 12 ft", "bed 'tomatoes' header end"
  int device = -1;    // index into Garden::devices
};

struct Leg {
  int from = -1, to = -1;  // from nearer the source
  Length length;
  LegRole role = LegRole::supply;
  std::string size;  // nominal ("1/2 in"); empty until sized
  int element = -1;
  int run = -1;  // index into Garden::runs
  Place place;   // the step of the walk that made it
};

// A stretch of tubing that has one nominal size: a line, a bed's riser and header, one row.
struct Run {
  std::string name;  // "trunk", "bed 'tomatoes' row 2"
  LegRole role = LegRole::supply;
  std::string size;         // nominal; empty until sized
  bool size_given = false;  // by the design
  int element = -1;
  PartSpec tubing;                     // what the tubing must be: kind and attributes but for the size
  std::optional<EmitterLaw> emitters;  // in-line emitters, if any
  Length emitter_spacing;
  std::int64_t emitter_count = 0;
  bool may_join = false;  // a coupling inside the run is allowed
  bool existing = false;  // on the site already: no tubing, no emitters, no hold-downs are needed for it
  Place place;
};

// A part that sits at a node: between two legs (valve) or at an end (emitter, sprayer).
struct Device {
  PartSpec part;  // without size where the tubing's size decides it
  int node = -1;
  int element = -1;
  std::optional<EmitterLaw> outlet;
  std::int64_t count = 1;  // how many alike at this node
  std::string rule;
  bool existing = false;  // on the site already
  Place place;
};

enum class Joint {
  end_closure,  // one leg of plain tubing ends here
  flush_cap,    // an emitter row or tape ends here
  elbow,        // two legs, sharper than the tubing bends unaided
  straight,    // two legs run on; only listed where a part is needed: a reducer where the sizes differ, else a coupling
  tee,         // three legs; the first two are the run, the third the branch
  cross,       // four legs
  take_off,    // small tubing leaves larger tubing through its wall: legs[0] the small one, legs[1] the large
  tape_start,  // tape leaves other tubing: legs[0] the tape, legs[1] the other
  head,        // a zone's tubing starts at the head assembly
};
std::string to_text(Joint joint);

struct Fitting {
  Joint joint = Joint::straight;
  int node = -1;
  std::vector<int> legs;
  int element = -1;   // whose part this is
  std::string rule;   // why, in words: "three legs meet: tee"
  std::string where;  // "trunk, 12 ft from the tap"
  Place place;
};

// Tubing between two fittings or devices, cut from one coil unless it may be joined.
struct Piece {
  Length length;
  int run = -1;
  std::vector<int> legs;
  std::string where;  // "trunk, tap to first tee"
};

struct Zone {
  std::string name;
  std::vector<int> elements;
  int head_node = -1;  // where its tubing starts
  Place place;
};

struct Garden {
  std::string name;
  UnitSystem units = UnitSystem::us;  // of the design file, for words
  std::string series = "inch";        // NominalSize::series that sizing chooses from
  SiteSource source;
  std::vector<Zone> zones;
  std::vector<Element> elements;
  std::vector<Node> nodes;
  std::vector<Leg> legs;
  std::vector<Run> runs;
  std::vector<Device> devices;
  std::vector<Fitting> fittings;
  std::vector<Piece> pieces;
  std::vector<int> system_of_leg;   // legs of one connected tubing system share a number (the head parts them)
  std::vector<OwnedPart> existing;  // parts the site has, to be deducted
};

// The network, its fittings and its pieces, for a Site that was read without errors. Errors: anchors beyond a line,
// rows that do not fit, what nothing joins to the tap, zones without room for their valve. Warnings: runs that cross
// without a joint, zones that depend on one another. Runs whose size the design leaves open keep an empty one.
Garden lay_out(const Site& site, const Practice& practice, Diagnostics& diagnostics);
// Fittings and pieces anew after sizes were set on runs (two legs of unequal size need a reducer).
void fit_out(Garden& garden, const Practice& practice);

// Pure facts used by tests and the plan: bends in degrees at a node between two legs.
double turn_at(const Garden& garden, int node, int leg_a, int leg_b);

Json to_json(const Garden& garden);

}  // namespace teetally
