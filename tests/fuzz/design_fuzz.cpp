// libFuzzer: any bytes through the design reader and, when nothing is wrong, through laying out. Promises: no crash,
// no undefined behaviour, every complaint has a place, and pieces add up to the legs.
#include <cstdint>
#include <cstdlib>

#include "teetally/garden.h"

namespace teetally {
namespace {

void promise(bool holds) {
  if (!holds) std::abort();
}

void try_text(std::string text) {
  static const Vocabulary vocabulary = shipped_vocabulary();
  static const Practice practice = shipped_practice();
  Diagnostics diagnostics;
  const Site site = read_design(source_from_text("fuzz.yaml", std::move(text)), vocabulary, {}, diagnostics);
  if (!diagnostics.has_errors()) {
    const Garden garden = lay_out(site, practice, diagnostics);
    Length legs, pieces;
    for (const Leg& leg : garden.legs) {
      if (!garden.runs[static_cast<std::size_t>(leg.run)].existing) legs += leg.length;
    }
    for (const Piece& piece : garden.pieces) pieces += piece.length;
    promise(diagnostics.has_errors() || legs == pieces);
  }
  for (const Diagnostic& diagnostic : diagnostics.in_order()) promise(diagnostic.place.known());
}

}  // namespace
}  // namespace teetally

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  teetally::try_text(std::string(reinterpret_cast<const char*>(bytes), size));
  return 0;
}
