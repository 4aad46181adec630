#include "design/measures.h"

#include <fmt/format.h>

#include <array>
#include <cstdlib>

namespace teetally::design {

namespace {

void bad(Diagnostics& diagnostics, const Place& place, std::string message, std::string help = {}) {
  diagnostics.error("design/bad-value", place, std::move(message)).help = std::move(help);
}

std::optional<Length> length_between(Fields& fields, std::string_view key, Length least, Diagnostics& diagnostics) {
  const std::optional<Length> value = fields.length(key);
  if (!value) return std::nullopt;
  if (*value < least || *value > kFarthest) {
    bad(diagnostics, fields.place_of(key),
        fmt::format("'{}' is {}; expected {} and at most 10 km", key, fields.find(key)->text,
                    least.tenths_mm > 0 ? "more than nothing" : "no less than nothing"));
    return std::nullopt;
  }
  return value;
}

std::string described(const YamlNode& node) {
  if (node.kind != YamlNode::Kind::sequence) return describe(node);
  return "a list of " + counted(static_cast<std::int64_t>(node.items.size()), "value");
}

template <typename Value>
std::optional<Value> above_zero(Fields& fields, std::string_view key, std::optional<Value> value,
                                Diagnostics& diagnostics) {
  if (value && *value <= Value{}) {
    bad(diagnostics, fields.place_of(key), fmt::format("'{}' must be more than nothing", key));
    return std::nullopt;
  }
  return value;
}

}  // namespace

std::optional<Length> length_from_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics) {
  return length_between(fields, key, Length{0}, diagnostics);
}

std::optional<Length> length_above_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics) {
  return length_between(fields, key, Length{1}, diagnostics);
}

std::optional<Flow> flow_above_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics) {
  return above_zero(fields, key, fields.flow(key), diagnostics);
}

std::optional<Pressure> pressure_above_zero(Fields& fields, std::string_view key, Diagnostics& diagnostics) {
  return above_zero(fields, key, fields.pressure(key), diagnostics);
}

bool already_told(const YamlNode& node) { return node.kind == YamlNode::Kind::null && !node.place.known(); }

std::optional<Length> read_length(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  if (already_told(node)) return std::nullopt;
  if (node.kind != YamlNode::Kind::scalar) {
    diagnostics.error("design/wrong-type", node.place,
                      fmt::format("expected a length such as 12 ft, found {}", describe(node)));
    return std::nullopt;
  }
  const tl::expected<Length, std::string> value = parse_length(node.text, bare);
  if (!value) {
    bad(diagnostics, node.place, value.error());
    return std::nullopt;
  }
  if (std::llabs(value->tenths_mm) > kFarthest.tenths_mm) {
    bad(diagnostics, node.place, fmt::format("'{}' is more than 10 km", node.text));
    return std::nullopt;
  }
  return *value;
}

std::optional<Point> read_point(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  if (already_told(node)) return std::nullopt;
  if (node.kind != YamlNode::Kind::sequence || node.items.size() < 2 || node.items.size() > 3) {
    diagnostics
        .error("design/wrong-type", node.place,
               fmt::format("expected a position [east, north] or [east, north, up], found {}", described(node)))
        .help = "for example [12 ft, 4 ft]";
    return std::nullopt;
  }
  std::array<Length, 3> part{};
  bool whole = true;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const std::optional<Length> value = read_length(node.items[i], bare, diagnostics);
    if (value) part[i] = *value;
    whole = whole && value.has_value();
  }
  if (!whole) return std::nullopt;
  return Point{part[0], part[1], part[2]};
}

std::optional<Point> read_extent(const YamlNode& node, const BareUnits& bare, Diagnostics& diagnostics) {
  if (already_told(node)) return std::nullopt;
  if (node.kind != YamlNode::Kind::sequence || node.items.size() != 2) {
    diagnostics
        .error("design/wrong-type", node.place,
               fmt::format("expected a size [east-west, north-south], found {}", described(node)))
        .help = "for example [12 ft, 4 ft]";
    return std::nullopt;
  }
  const std::optional<Point> extent = read_point(node, bare, diagnostics);
  if (extent && (extent->east <= Length{} || extent->north <= Length{})) {
    bad(diagnostics, node.place, "both sides of a size must be more than nothing");
    return std::nullopt;
  }
  return extent;
}

bool has_keys(const YamlNode& node, std::string_view key, std::string_view example, Diagnostics& diagnostics) {
  if (node.kind == YamlNode::Kind::mapping) return true;
  if (already_told(node)) return false;
  diagnostics
      .error("design/wrong-type", node.place,
             fmt::format("{} is {}; expected keys and values", quoted(key), describe(node)))
      .help = fmt::format("for example {}: {}", key, example);
  return false;
}

bool check_header(Fields& root, std::string_view kind, Diagnostics& diagnostics) {
  const std::optional<std::string> header = root.text("teetally");
  const std::string wanted = fmt::format("{} 1", kind);
  if (header && *header == wanted) return true;
  std::string found = header ? quoted(*header) : "no such key";
  diagnostics
      .error("design/wrong-header", root.place_of("teetally"),
             fmt::format("expected the key 'teetally: {}', found {}", wanted, found))
      .help = header && header->starts_with(std::string(kind) + " ")
                  ? "this program reads version 1 of this file"
                  : fmt::format("start the file with the line 'teetally: {}'", wanted);
  return false;
}

}  // namespace teetally::design
