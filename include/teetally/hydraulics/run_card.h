#pragma once
// A run card: for every zone how many starts a week and how many minutes each, from what a person says plants need, the
// area watered and the flow as solved. Settings come from `other` in the practice file (docs/run-time.md); one named
// "KEY, ZONE" holds for that zone alone. Nothing is recommended: without a depth wanted there is no card.
#include <string>
#include <vector>

#include "teetally/hydraulics.h"
#include "teetally/hydraulics/run_time.h"

namespace teetally {

struct ZoneRun {
  std::string zone;
  double wanted_mm = 0;      // a week, in the soil
  std::string wanted_words;  // "1 in a week (practice.yaml:3:10)"
  double m2 = 0;
  double flow_m3_per_s = 0;      // onto that area
  double efficiency = 0;         // 0 to 1
  std::string efficiency_words;  // "90 % application efficiency, by which the depth is divided (...)"
  double mm_per_h = 0;
  double soil_minutes = 0;  // that one start may take; zero: the soil is not described
  WateringTime time;
  std::vector<std::string> notes;  // what is left out, what the soil cannot hold
};

struct RunCard {
  std::string name;
  Verdict verdict = Verdict::unknown;
  std::string words;  // of the verdict
  std::vector<ZoneRun> zones;
  std::vector<std::string> left_out;  // names of zones of which no area is known
  std::vector<std::string> cautions;
};

// Errors: no depth wanted (hydraulics/no-depth), values that cannot be read (hydraulics/bad-setting). Warning: a zone
// of which no area is known (hydraulics/no-wetted-area); it is left out.
RunCard run_card(const Site& site, const SizedGarden& sized, const Practice& practice, UnitSystem units,
                 Diagnostics& diagnostics);

Json to_json(const RunCard& card);

}  // namespace teetally
