#include "tool/units_of_file.h"

#include <algorithm>
#include <array>

namespace teetally {
namespace {

bool is_metric(const std::string& unit) {
  static constexpr std::array<std::string_view, 8> kMetric = {"m", "cm", "mm", "l/h", "l/min", "bar", "kPa", "l"};
  return std::find(kMetric.begin(), kMetric.end(), unit) != kMetric.end();
}

const YamlNode* entry(const YamlNode& node, std::string_view key) {
  for (const YamlEntry& e : node.entries) {
    if (e.key == key) return &e.value;
  }
  return nullptr;
}

}  // namespace

UnitSystem units_of_file(const Source& source) {
  Diagnostics ignored;  // whoever reads the file for its content reports what is wrong with it
  const YamlNode root = read_yaml(source, ignored);
  const YamlNode* units = entry(root, "units");
  if (units == nullptr) return UnitSystem::us;
  const bool metric = std::any_of(units->entries.begin(), units->entries.end(),
                                  [](const YamlEntry& e) { return is_metric(e.value.text); });
  return metric ? UnitSystem::metric : UnitSystem::us;
}

}  // namespace teetally
