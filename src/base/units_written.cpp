#include "teetally/base/units_written.h"

#include <algorithm>
#include <array>

namespace teetally {
namespace {

constexpr std::array<std::string_view, 8> kMetric = {"m", "cm", "mm", "l/h", "l/min", "bar", "kPa", "l"};
constexpr std::array<std::string_view, 8> kUs = {"ft", "in", "'", "\"", "gph", "gpm", "psi", "gal"};
// What stands under these is called "1/2 in" or "16 mm" wherever the garden is.
constexpr std::array<std::string_view, 4> kNames = {"size", "thread", "feeder", "name"};

template <typename Words>
bool is_one_of(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool holds_names(std::string_view key) {
  return std::any_of(kNames.begin(), kNames.end(),
                     [&](std::string_view name) { return key.find(name) != std::string_view::npos; });
}

struct Counted {
  std::int64_t metric = 0, us = 0;
};

// "5 ft 6 in", "12m": what follows a number, behind a space or not.
void count_text(std::string_view text, Counted& counted) {
  constexpr std::string_view kDigits = "0123456789./+-";
  bool behind_number = false;
  while (!text.empty()) {
    const std::string_view word = text.substr(0, text.find_first_of(" ,"));
    text.remove_prefix(std::min(text.size(), word.size() + 1));
    const auto end = word.find_first_not_of(kDigits);
    if (end == std::string_view::npos) {
      behind_number = !word.empty() || behind_number;
      continue;
    }
    const std::string_view unit = word.substr(end);
    if (behind_number || end > 0) {
      counted.metric += is_one_of(kMetric, unit) ? 1 : 0;
      counted.us += is_one_of(kUs, unit) ? 1 : 0;
    }
    behind_number = false;
  }
}

void count_units(const YamlNode& node, Counted& counted) {
  if (node.kind == YamlNode::Kind::scalar) count_text(node.text, counted);
  for (const YamlNode& item : node.items) count_units(item, counted);
  for (const YamlEntry& entry : node.entries) {
    if (!holds_names(entry.key)) count_units(entry.value, counted);
  }
}

const YamlNode* value_of(const YamlNode& node, std::string_view key) {
  for (const YamlEntry& entry : node.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

bool is_declared_metric(const YamlNode& units) {
  if (const YamlNode* length = value_of(units, "length")) return is_one_of(kMetric, length->text);
  return std::any_of(units.entries.begin(), units.entries.end(),
                     [](const YamlEntry& entry) { return is_one_of(kMetric, entry.value.text); });
}

}  // namespace

UnitSystem units_written(const YamlNode& root) {
  bool metric = false;
  if (const YamlNode* units = value_of(root, "units")) {
    metric = is_declared_metric(*units);
  } else {
    Counted counted;
    count_units(root, counted);
    metric = counted.metric > counted.us;
  }
  return metric ? UnitSystem::metric : UnitSystem::us;
}

}  // namespace teetally
