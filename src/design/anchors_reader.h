#pragma once
// Words that say where: anchors ("12 ft along trunk", "nearest point of trunk", "end of trunk", "[12 ft, 4 ft]", a
// point's name) and the steps of a walk ("east 18 ft", "northeast 5 m rising 30 cm as gate", "to gate").
#include <optional>
#include <string_view>

#include "teetally/design.h"

namespace teetally::design {

std::optional<Anchor> read_anchor(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics);
std::optional<WalkStep> read_step(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics);
// A direction and a length without a name: "east 5 ft", or a position [5 ft, 0 ft] taken as a move.
std::optional<Point> read_move(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics);
// "north", "south", "east" or "west".
std::optional<Side> read_side(Fields& fields, std::string_view key);

}  // namespace teetally::design
