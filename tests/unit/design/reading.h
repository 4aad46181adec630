#pragma once
// Short design files in, Site and diagnostics out: what the tests of this stage share.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <cstdlib>
#include <map>
#include <string>

#include "teetally/design.h"

namespace teetally::testing {

struct Read {
  Site site;
  std::vector<Diagnostic> diagnostics;
};

inline Read read_text(const std::string& text, const std::map<std::string, std::string>& set = {}) {
  Diagnostics diagnostics;
  Read read;
  read.site = read_design(source_from_text("garden.yaml", text), shipped_vocabulary(), set, diagnostics);
  read.diagnostics = diagnostics.in_order();
  return read;
}

inline const std::string kHead =
    "teetally: design 1\n"
    "units: {length: ft, flow: gph, pressure: psi}\n"
    "source: {thread: 3/4 in hose}\n";
inline const std::string kTrunk = "lines: [{name: trunk, from: tap, walk: [east 30 ft]}]\n";
inline const std::string kPots =
    "containers: [{name: pots, at: [[4 ft, 2 ft]], emitter: {flow: 1 gph}, feed: trunk}]\n";

inline std::string slugs_of(const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += (text.empty() ? "" : " ") + diagnostic.slug;
  return text;
}

inline std::string all_text(const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += to_text(diagnostic);
  return text;
}

}  // namespace teetally::testing
