#pragma once
// Readings that several files of this stage share: lengths that must not be negative or absurd, and positions. Each
// adds its diagnostic and answers nothing when the value is wrong.
#include <optional>
#include <string_view>

#include "teetally/design.h"

namespace teetally::design {

// Nothing in a garden is further away than this.
inline constexpr Length kFarthest = metres(10000);
inline constexpr std::int64_t kMostCopies = 1000;
inline constexpr std::size_t kMostElements = 2000;
inline constexpr std::int64_t kMostRows = 1000;

// From zero, or from just above it, to kFarthest.
std::optional<Length> length_from_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics);
std::optional<Length> length_above_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics);
std::optional<Flow> flow_above_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics);
std::optional<Pressure> pressure_above_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics);

// One scalar as a length of either sign, within kFarthest.
std::optional<Length> read_length(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics);
// [east, north] or [east, north, up].
std::optional<Point> read_point(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics);
// [east-west, north-south], both above zero.
std::optional<Point> read_extent(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics);

// A node that stands for something that has been complained about: an alias, an unknown parameter.
bool already_told(const YamlNode& node);

// Whether the node holds keys and values; otherwise a diagnostic shows an example.
bool has_keys(const YamlNode& node, std::string_view key, std::string_view example, Diagnostics& diagnostics);

// Whether the first key is `teetally` with `kind` and version 1; otherwise a diagnostic says what was found.
bool check_header(Fields& root, std::string_view kind, Diagnostics& diagnostics);

}  // namespace teetally::design
