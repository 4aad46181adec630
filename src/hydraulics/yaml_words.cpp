#include "hydraulics/yaml_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace teetally::hydraulics {
namespace {

bool is_plain(const std::string& name) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto inside = [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == ' ' || c == '-' || c == '_'; };
  static constexpr std::array<const char*, 8> kTaken = {"yes", "no", "true", "false", "on", "off", "null", "y"};
  return !name.empty() && letter(name.front()) && name.back() != ' ' && std::all_of(name.begin(), name.end(), inside) &&
         std::find(kTaken.begin(), kTaken.end(), name) == kTaken.end();
}

// A decimal number without zeros at its end.
std::string decimal(double value, int places) {
  std::string text = fmt::format("{:.{}f}", value, places);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

UnitSystem other(UnitSystem units) { return units == UnitSystem::us ? UnitSystem::metric : UnitSystem::us; }

// The usual text, in the file's units or else the other ones, when it reads back as the same value.
template <typename Value>
std::optional<std::string> that_reads_back(Value value, UnitSystem units,
                                           tl::expected<Value, std::string> (*parse)(std::string_view,
                                                                                     const BareUnits&)) {
  for (const UnitSystem system : {units, other(units)}) {
    std::string text = to_text(value, system);
    const auto back = parse(text, {});
    if (back && *back == value) return text;
  }
  return std::nullopt;
}

}  // namespace

std::string yaml_name(const std::string& name) {
  if (is_plain(name)) return name;
  std::string out = "\"";
  for (const char c : name) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

std::string exact(Length value, UnitSystem units) {
  if (const auto text = that_reads_back(value, units, parse_length)) return *text;
  return decimal(static_cast<double>(value.tenths_mm) / 10, 1) + " mm";
}

std::string exact(Flow value, UnitSystem units) {
  if (const auto text = that_reads_back(value, units, parse_flow)) return *text;
  return decimal(static_cast<double>(value.nl_per_h) / 1e9, 9) + " l/h";
}

std::string exact(Pressure value, UnitSystem units) {
  if (const auto text = that_reads_back(value, units, parse_pressure)) return *text;
  return decimal(static_cast<double>(value.pa) / 1e5, 5) + " bar";
}

std::string exact(const Point& at, UnitSystem units) {
  std::string text = "[" + exact(at.east, units) + ", " + exact(at.north, units);
  if (at.up != Length{}) text += ", " + exact(at.up, units);
  return text + "]";
}

std::string drip_tubing_line(const DripTubing& tubing, const Practice& practice, UnitSystem units) {
  std::string text = fmt::format("{}: {{size: {}, spacing: {}, flow: {}", tubing.tape ? "tape" : "emitter line",
                                 tubing.size, exact(tubing.spacing, units), exact(tubing.flow, units));
  if (tubing.compensating) text += ", compensating: yes";
  const Pressure usual = tubing.tape ? practice.tape_rated_at.value : practice.emitter_rated_at.value;
  if (tubing.rated_at.pa > 0 && tubing.rated_at != usual) text += ", rated at: " + exact(tubing.rated_at, units);
  if (tubing.exponent && !tubing.compensating) text += ", exponent: " + decimal(*tubing.exponent, 4);
  if (tubing.least) text += ", works from: " + exact(*tubing.least, units);
  if (tubing.most) text += ", works to: " + exact(*tubing.most, units);
  return text + "}";
}

}  // namespace teetally::hydraulics
