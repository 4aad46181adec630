#pragma once
// A Garden becomes a SizedGarden: every run has a nominal size, and every zone a verdict on whether it works
// at this tap. Computation is in SI doubles; what is shown is converted at the edge. Sources of every formula
// and constant stand beside its code.
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
  Length farthest;               // from the run's start along the network to its farthest end of same size
  std::string size_by_rule;      // smallest by the rule of thumb; empty when none passes or it is off
  std::string size_by_computation;
  std::string size;              // chosen
  std::string why;               // one sentence
};

struct ZoneHydraulics {
  int zone = -1;
  double demand_m3_per_s = 0;
  double available_m3_per_s = 0; // tested flow less the margin; zero when no test is given
  double start_pa = 0;           // after the head assembly
  double lowest_pa = 0, highest_pa = 0;  // at the outlets
  Pressure regulator;            // wanted outlet pressure
  bool tape = false;             // has tape
  Verdict verdict = Verdict::unknown;
  std::string words;             // "tight: needs 210 gph of 240 gph tested, margin 20 % wanted"
  std::vector<std::string> advice;
};

struct SizedGarden {
  Garden garden;                 // runs sized, fittings and pieces final
  std::vector<double> leg_flow_m3_per_s;   // by leg
  std::vector<double> node_pa;             // by node, gauge pressure
  std::vector<RunHydraulics> runs;
  std::vector<ZoneHydraulics> zones;
  Verdict verdict = Verdict::unknown;      // the worst of the zones
  std::string words;
};

SizedGarden size_garden(Garden garden, const Practice& practice, UnitSystem units, Diagnostics& diagnostics);

Json to_json(const SizedGarden& sized);

}  // namespace teetally
