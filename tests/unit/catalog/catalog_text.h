#pragma once
// Small catalogs as text, for tests that look at one thing.
#include <string>

#include "teetally/catalog.h"

namespace catalog_text {

inline const std::string kTubing =
    "  - {sku: P1, part: {kind: supply tubing, size: 1/2 in}, inside: 0.600 in, outside: 0.700 in, "
    "packs: [{length: 100 ft, price: 14.95}]}\n";
inline const std::string kTee =
    "  - {sku: T1, part: {kind: tee, size: 1/2 in, branch size: 1/2 in}, grips: {inside: 0.600 in}, price: 0.65}\n";
inline const std::string kElbow =
    "  - {sku: E1, part: {kind: elbow, size: 1/2 in}, grips: {outside: 0.690 in to 0.710 in}, price: 0.80}\n";

// Lines 1 to 4 are the head; `more` starts on line 5.
inline std::string with(const std::string& more) {
  return "teetally: catalog 1\nsupplier: {id: mill}\ncurrency: USD\nunits: {length: ft, flow: gph, pressure: psi}\n" +
         more;
}
// The first item is on line 6.
inline std::string with_items(const std::string& items) { return with("items:\n" + items); }
// Tubing, a tee and an elbow are on lines 6 to 8; the first bundle is on line 10.
inline std::string with_bundles(const std::string& bundles) {
  return with_items(kTubing + kTee + kElbow + "bundles:\n" + bundles);
}
// The ordering terms are on line 5; the items follow.
inline std::string with_ordering(const std::string& terms) { return with("ordering: " + terms + "\nitems:\n" + kTee); }

struct Reading {
  std::optional<teetally::Catalog> catalog;
  std::vector<teetally::Diagnostic> found;
};
inline Reading read(const std::string& text) {
  static const teetally::Vocabulary vocabulary = teetally::shipped_vocabulary();
  teetally::Diagnostics diagnostics;
  Reading reading;
  reading.catalog = teetally::read_catalog(teetally::source_from_text("mill.yaml", text), vocabulary, diagnostics);
  reading.found = diagnostics.in_order();
  return reading;
}

}  // namespace catalog_text
