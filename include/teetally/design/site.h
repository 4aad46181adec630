#pragma once
// A Site as a person measured it: lines, beds, containers, tape rows, sprays and zones, each with its place.
// Parameters are filled in, `like` and `repeat` are laid out, every name that is used is known. Anchors
// ("12 ft along trunk") are still words here; the garden stage resolves them into positions.
#include "teetally/design.h"

namespace teetally {

struct Point {
  Length east, north, up;
  bool operator==(const Point&) const = default;
};

// Where something starts, ends or takes its water from.
struct Anchor {
  enum class Form {
    source,   // the tap
    at,       // a position
    named,    // a named point
    along,    // a distance along a line, from its start
    nearest,  // the point of a line nearest to what is fed
    start,    // of a line
    middle,   // of a line, half way along
    end,      // of a line
  };
  Form form = Form::source;
  Point at;          // for Form::at
  std::string name;  // of the point or line
  Length along;      // for Form::along
  Place place;
};

// One step of a walk: by so much, or to somewhere; `as` names the point reached.
struct WalkStep {
  Point by;
  std::optional<Anchor> to;
  std::string as;
  std::string words;  // as written, for messages
  Place place;
};

struct NamedPoint {
  std::string name;
  Point at;
  Place place;
};

struct SupplyLine {
  std::string name;
  Anchor from;
  std::vector<WalkStep> walk;
  std::string size;       // nominal; empty: to be sized
  bool existing = false;  // its tubing and its own fittings are there already
  Place place;
};

// Tubing with outlets along it: emitter line, or drip tape.
struct DripTubing {
  bool tape = false;
  std::string size;
  Length spacing;
  Flow flow;  // of one outlet at `rated_at`
  bool compensating = false;
  Pressure rated_at;
  std::optional<double> exponent;
  std::optional<Pressure> least, most;  // working range
  Place place;
};

enum class Side { north, south, east, west };
std::string to_text(Side side);

// Which point of a header its feed meets.
enum class FeedAt { nearest_end, middle, north_end, south_end, east_end, west_end };

struct Bed {
  std::string name;
  Point corner;  // south-west, on the ground
  Length east_west, north_south;
  Length height;  // of the rim above the ground; zero: level with it
  std::optional<std::int64_t> row_count;
  std::optional<Length> row_spacing;
  DripTubing rows;
  std::optional<Side> header;          // the side that carries the header; absent: see rows_east_west
  std::optional<bool> rows_east_west;  // absent: along the longer side
  std::string rows_from;               // a line that the rows leave without a header of their own; empty: none
  FeedAt feed_at = FeedAt::nearest_end;
  Anchor feed;
  std::string size;  // of riser and header; empty: to be sized
  bool valve = false;
  bool existing = false;
  Place place;
};

struct OutletSpec {
  std::string kind;  // "emitter", "sprayer", "bubbler"
  Flow flow;
  bool compensating = false;
  std::string pattern;  // sprayers
  Pressure rated_at;
  std::optional<double> exponent;
  std::optional<Pressure> least, most;
  Place place;
};

struct PlacedPoint {
  Point at;
  Place place;
};

struct Containers {
  std::string name;
  std::vector<PlacedPoint> at;
  OutletSpec emitter;
  std::int64_t each = 1;  // emitters in one container
  std::string feeder;     // nominal size of the feeder tubing
  Anchor feed;
  bool existing = false;
  Place place;
};

struct TapeRows {
  std::string name;
  Point start;  // of the first row
  Side direction = Side::east;
  Length length;
  std::int64_t count = 1;
  Length spacing;
  Side toward = Side::north;  // where the next row lies
  DripTubing tape;
  std::string rows_from;  // a line that the rows leave; empty: a header of their own across their starts
  FeedAt feed_at = FeedAt::nearest_end;
  Anchor feed;
  std::string size;  // of the header; empty: to be sized
  bool valve = false;
  bool existing = false;
  Place place;
};

// A rectangle covered by sprayers at a spacing, fed by a line along its middle.
struct Bench {
  Point corner;  // south-west, at the height of the bench
  Length east_west, north_south;
  Length spacing;
  std::string size;  // of the line along it; empty: to be sized
  Place place;
};

struct Sprays {
  std::string name;
  std::vector<PlacedPoint> at;
  std::optional<Bench> bench;  // instead of `at`
  OutletSpec outlet;
  std::string feeder;
  Anchor feed;
  bool existing = false;
  Place place;
};

struct ZoneMember {
  std::string name;
  Place place;
};
struct SiteZone {
  std::string name;
  std::vector<ZoneMember> members;  // names of elements, repeats spelt out
  Place place;
};

struct Site {
  std::string name;
  Place place;
  UnitSystem units = UnitSystem::us;  // of the file's bare lengths: for words in labels
  std::string series = "inch";        // which nominal sizes the program may choose from: NominalSize::series
  SiteSource source;
  std::vector<OwnedPart> existing;
  std::vector<NamedPoint> points;
  std::vector<SupplyLine> lines;
  std::vector<Bed> beds;
  std::vector<Containers> containers;
  std::vector<TapeRows> tape_rows;
  std::vector<Sprays> sprays;
  std::vector<SiteZone> zones;  // empty: everything runs together
};

}  // namespace teetally
