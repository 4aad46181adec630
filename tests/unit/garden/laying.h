#pragma once
// Short gardens in, counts out: what the tests of laying out share.
#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <map>
#include <string>

#include "teetally/garden.h"

namespace teetally::testing {

struct Laid {
  Garden garden;
  std::vector<Diagnostic> diagnostics;
};

inline std::vector<std::string> slugs(const std::vector<Diagnostic>& diagnostics) {
  std::vector<std::string> slugs;
  for (const Diagnostic& diagnostic : diagnostics) slugs.push_back(diagnostic.slug);
  return slugs;
}

inline bool has_slug(const std::vector<Diagnostic>& diagnostics, const std::string& slug) {
  const std::vector<std::string> all = slugs(diagnostics);
  return std::find(all.begin(), all.end(), slug) != all.end();
}

inline Laid lay_out_source(const Source& source, const Practice& practice,
                           const std::map<std::string, std::string>& set = {}) {
  Diagnostics diagnostics;
  const Site site = read_design(source, shipped_vocabulary(), set, diagnostics);
  Laid laid;
  if (!diagnostics.has_errors()) laid.garden = lay_out(site, practice, diagnostics);
  laid.diagnostics = diagnostics.in_order();
  return laid;
}

// A design of feet behind a tap at the origin, at ground level; `text` adds what it holds.
inline Laid lay_out_text(const std::string& text, const Practice& practice = shipped_practice()) {
  const std::string head =
      "teetally: design 1\n"
      "name: test\n"
      "units: {length: ft, flow: gph, pressure: psi}\n"
      "source: {at: [0, 0], thread: 3/4 in hose}\n";
  return lay_out_source(source_from_text("garden.yaml", head + text), practice);
}

inline void show(const std::vector<Diagnostic>& diagnostics) {
  for (const Diagnostic& diagnostic : diagnostics) BOOST_TEST_MESSAGE(to_text(diagnostic));
}

inline void require_clean(const Laid& laid) {
  for (const Diagnostic& diagnostic : laid.diagnostics) BOOST_TEST_MESSAGE(to_text(diagnostic));
  BOOST_REQUIRE(laid.diagnostics.empty());
}

inline std::int64_t count(const Garden& garden, Joint joint) {
  return std::count_if(garden.fittings.begin(), garden.fittings.end(),
                       [&](const Fitting& fitting) { return fitting.joint == joint; });
}

inline std::map<std::string, std::int64_t> counts(const Garden& garden) {
  std::map<std::string, std::int64_t> all;
  for (const Fitting& fitting : garden.fittings) ++all[to_text(fitting.joint)];
  return all;
}

inline Length tubing(const Garden& garden, LegRole role) {
  Length length;
  for (const Leg& leg : garden.legs) {
    if (leg.role == role) length += leg.length;
  }
  return length;
}

inline Length pieces_length(const Garden& garden) {
  Length length;
  for (const Piece& piece : garden.pieces) length += piece.length;
  return length;
}

inline std::int64_t emitters(const Garden& garden) {
  std::int64_t total = 0;
  for (const Run& run : garden.runs) total += run.emitter_count;
  for (const Device& device : garden.devices) total += device.outlet ? device.count : 0;
  return total;
}

}  // namespace teetally::testing
