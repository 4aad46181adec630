#pragma once
// From the words of a design to its takeoff, for tests that are about counts: runs without a size of their own
// become 1/2 in tubing, and nothing is asked of the tap.
#include <boost/test/unit_test.hpp>
#include <string>

#include "teetally/needs/take_off.h"

namespace teetally {

struct LaidTakeoff {
  Garden garden;
  Takeoff takeoff;
};

inline void require_no_errors(const Diagnostics& diagnostics) {
  for (const Diagnostic& diagnostic : diagnostics.in_order()) {
    BOOST_REQUIRE_MESSAGE(diagnostic.severity != Severity::error, to_text(diagnostic));
  }
}

inline LaidTakeoff take_off_site(const Site& site, const Practice& practice) {
  Diagnostics diagnostics;
  SizedGarden sized;
  sized.garden = lay_out(site, practice, diagnostics);
  for (Run& run : sized.garden.runs) {
    if (run.size.empty()) run.size = "1/2 in";
  }
  fit_out(sized.garden, practice);
  LaidTakeoff laid;
  laid.takeoff = take_off(sized, practice, shipped_vocabulary(), UnitSystem::us, diagnostics);
  laid.garden = sized.garden;
  require_no_errors(diagnostics);
  return laid;
}

inline Site read_site(const std::string& design) {
  Diagnostics diagnostics;
  const Site site = read_design(source_from_text("garden.yaml", design), shipped_vocabulary(), {}, diagnostics);
  require_no_errors(diagnostics);
  return site;
}

inline LaidTakeoff take_off_text(const std::string& design, const Practice& practice) {
  return take_off_site(read_site(design), practice);
}

// What the design alone asks for, of all needs of one kind.
inline std::int64_t designed(const Takeoff& takeoff, const std::string& kind) {
  std::int64_t sum = 0;
  for (const Need& need : takeoff.needs) {
    if (need.part.kind != kind) continue;
    for (const Reason& reason : need.reasons) sum += reason.reason_class == ReasonClass::design ? reason.amount : 0;
  }
  return sum;
}

inline std::int64_t emitters_in_rows(const Garden& garden) {
  std::int64_t sum = 0;
  for (const Run& run : garden.runs) sum += run.emitter_count;
  return sum;
}

}  // namespace teetally
