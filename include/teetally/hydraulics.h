#pragma once
// A Garden becomes a SizedGarden: every run has a nominal size, and every zone a verdict on whether it works
// at this tap. Computation is in SI doubles; what is shown is converted at the edge. Sources of every formula
// and constant stand beside its code.
#include <cstdint>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/garden.h"

namespace teetally {

enum class Verdict { works, tight, will_not_work, unknown };
std::string to_text(Verdict verdict);

struct RunHydraulics {
  int run = -1;
  double flow_m3_per_s = 0;
  double velocity_m_per_s = 0;
  Length farthest;           // from the run's start along the network to its farthest end of same size
  std::string size_by_rule;  // smallest by the rule of thumb; empty when none passes or it is off
  std::string size_by_computation;
  std::string size;  // chosen
  std::string why;   // one sentence
};

// A row of emitter line or tape, or a single outlet's feeder: how evenly it gives.
struct RowHydraulics {
  int run = -1;
  std::int64_t outlets = 0;
  double flow_m3_per_s = 0;                      // of the whole row
  double inlet_pa = 0;                           // where the row starts
  double first_m3_per_s = 0, last_m3_per_s = 0;  // of its first and last outlet
  double variation = 0;                          // (most - least) / most over its outlets, 0 to 1
  Length length;
  Length longest_even;  // the longest such row that is even enough at this inlet pressure; at most 1,000 outlets
};

// A point on the way from the head assembly to the outlet that fares worst.
struct PathPoint {
  std::string where;
  Length along;  // from the start of the tubing
  Length up;     // height
  double pa = 0;
};

struct ZoneHydraulics {
  int zone = -1;
  double demand_m3_per_s = 0;            // at the wanted pressure
  double rated_m3_per_s = 0;             // the sum of the outlets' rated flows
  double tested_m3_per_s = 0;            // through the open tap; zero when no test is given
  double available_m3_per_s = 0;         // tested flow less the margin; zero when no test is given
  double start_pa = 0;                   // after the head assembly
  bool supply_limits = false;            // the tap cannot hold the wanted pressure at that flow
  double least_part = 0, most_part = 0;  // of an outlet's rated flow, over all outlets
  double variation = 0;                  // (most - least) / most
  double uniformity_percent = 0;         // emission uniformity
  std::string uniformity_class;          // "good"
  double fastest_m_per_s = 0;            // in its fastest line or header
  double most_m3_per_s = 0;              // this tap keeps the wanted pressure and the margin up to here; zero: unknown
  std::vector<PathPoint> worst_path;     // from the head to the outlet that gets least of its rated flow
  double lowest_pa = 0, highest_pa = 0;  // at the outlets
  Pressure regulator;                    // wanted outlet pressure
  std::string regulator_why;             // "25 psi from the practice; outlets are rated at 15 psi"
  bool tape = false;                     // has tape
  Verdict verdict = Verdict::unknown;
  std::string words;  // "tight: needs 210 gph of 240 gph tested, margin 20 % wanted"
};

// A line of the design or practice file that changes. `text` is ready to paste (several lines where it must be).
struct Edit {
  std::string file = "design";  // or "practice"
  std::string of;               // "bed 'tomatoes'"; empty: the top level of the file
  Place place;                  // of that element, or of the line that goes; nowhere for the top level
  bool new_item = false;        // `text` is one more item of the list named by `of`
  std::string text;             // "feed at: middle": a key with its value, in place of that key if it is there
};

// A change that was laid out and solved before it was offered.
struct Advice {
  std::string words;  // "run it as 2 zones, one after another: bed 'a' / bed 'b'"
  std::vector<Edit> edits;
  Verdict then = Verdict::unknown;
  std::string outcome;                // the verdict's words after the change
  std::vector<std::string> warnings;  // that the garden did not have before
};

// What verdicts are judged by, and where each figure comes from.
struct Limits {
  double margin = 0;  // of the tested flow, kept in reserve
  std::string margin_origin;
  double velocity_m_per_s = 0;  // in lines and headers
  std::string velocity_origin;
  double variation = 0;  // of outlets' flow
  std::string variation_origin;
  double emitter_cv = 0;  // manufacturing variation, in the emission uniformity
  std::string emitter_cv_origin;
  bool rule_of_thumb = true;  // used for sizing
};

// A figure that nobody measured here.
struct TakenFigure {
  std::string text;    // "the filter takes 2 psi"
  std::string origin;  // "assumed: ...", or a place
};

struct SizedGarden {
  Garden garden;                          // runs sized, fittings and pieces final
  std::vector<double> leg_flow_m3_per_s;  // by leg
  std::vector<double> node_pa;            // by node, gauge pressure
  std::vector<RunHydraulics> runs;
  std::vector<RowHydraulics> rows;  // runs with in-line emitters, in the order of runs
  std::vector<ZoneHydraulics> zones;
  Limits limits;
  std::vector<TakenFigure> taken;
  Verdict verdict = Verdict::unknown;  // the worst of the zones
  std::string words;
};

SizedGarden size_garden(Garden garden, const Practice& practice, UnitSystem units, Diagnostics& diagnostics);

// Changes that make a zone of `sized` work, or failing those make it better, the cheapest-looking first, each laid out
// and solved; none when the zone works. `site` is what `sized` was made of.
std::vector<Advice> advise(const Site& site, const SizedGarden& sized, int zone, const Practice& practice,
                           UnitSystem units);

Json to_json(const Advice& advice);
Json to_json(const SizedGarden& sized);

}  // namespace teetally
