#include "teetally/base/as_written.h"

#include <algorithm>

namespace teetally {
namespace {

bool reads_back(const std::string& text, Dimension dimension, std::int64_t value) {
  switch (dimension) {
    case Dimension::length:
      return parse_length(text, {}) == Length{value};
    case Dimension::diameter:
      return parse_diameter(text, {}) == Diameter{value};
    case Dimension::flow:
      return parse_flow(text, {}) == Flow{value};
    case Dimension::pressure:
      return parse_pressure(text, {}) == Pressure{value};
    case Dimension::word:
    case Dimension::count:
    case Dimension::number:
      return true;
  }
  return true;
}

// 2,500 ft has two digits that are not 0, as 762 m it has three.
auto telling_digits(const std::string& text) {
  return std::count_if(text.begin(), text.end(), [](char c) { return c >= '1' && c <= '9'; });
}

std::string number_as_written(Dimension dimension, std::int64_t value) {
  const AttributeValue number = number_value(dimension, value);
  std::string us = to_text(number, UnitSystem::us);
  std::string metric = to_text(number, UnitSystem::metric);
  if (!reads_back(metric, dimension, value)) return us;
  return telling_digits(metric) < telling_digits(us) || !reads_back(us, dimension, value) ? metric : us;
}

}  // namespace

std::string as_written(const AttributeValue& value) {
  if (value.dimension == Dimension::word) return to_text(value, UnitSystem::us);
  const std::string low = number_as_written(value.dimension, value.low);
  return value.low == value.high ? low : low + " to " + number_as_written(value.dimension, value.high);
}

std::string as_written(const PartSpec& spec) {
  // Each value as the words for it, so that the text of a part is put together in one place.
  PartSpec words{spec.kind, {}};
  for (const auto& [name, value] : spec.attributes) {
    AttributeValue said;
    said.words = {as_written(value)};
    words.attributes.emplace(name, std::move(said));
  }
  return to_text(words, UnitSystem::us);
}

}  // namespace teetally
