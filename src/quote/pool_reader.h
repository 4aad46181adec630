#pragma once
// What the YAML form and the CSV form of a pool's plots have in common.
#include <optional>
#include <string>

#include "teetally/quote/pool.h"

namespace teetally {

// The design that a plot names, or a diagnostic with the nearest name.
std::optional<PlotWorks> design_called(const PoolFile& pool, const std::string& name, const Place& place,
                                       Diagnostics& diagnostics);
// Adds a kind of part that a plot does without; unknown kinds are diagnostics.
void do_without(PlotWorks& works, const std::string& kind, const Place& place, const Vocabulary& vocabulary,
                Diagnostics& diagnostics);
// Adds one part of a kind that a plot has already.
void has_one(PlotWorks& works, const std::string& kind, const Place& place, const Vocabulary& vocabulary,
             Diagnostics& diagnostics);
int add_works(PoolFile& pool, PlotWorks works);  // its index

}  // namespace teetally
