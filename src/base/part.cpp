#include "teetally/base/part.h"

#include <fmt/format.h>

#include "base/decimal.h"
#include "teetally/base/text.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

std::string number_text(Dimension dimension, std::int64_t value, UnitSystem units) {
  switch (dimension) {
    case Dimension::word:
      return {};
    case Dimension::count:
      return std::to_string(value);
    case Dimension::number:
      return trimmed_zeros(fixed_text({value, 1000}, 3));
    case Dimension::length:
      return to_text(Length{value}, units);
    case Dimension::diameter:
      return to_text(Diameter{value}, units);
    case Dimension::flow:
      return to_text(Flow{value}, units);
    case Dimension::pressure:
      return to_text(Pressure{value}, units);
  }
  return {};
}

// Words are kept in small letters, but thread standards are read in capitals: "3/4 in BSP".
std::string shown_word(const std::string& word) {
  const std::size_t last = word.rfind(' ') + 1;
  std::string out = word;
  for (const std::string_view standard : {"bsp", "bspp", "bspt", "npt"}) {
    if (std::string_view(word).substr(last) != standard) continue;
    for (std::size_t i = last; i < out.size(); ++i) out[i] = static_cast<char>(out[i] - 'a' + 'A');
  }
  return out;
}

std::string words_text(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : " or ") + shown_word(word);
  return out;
}

std::string_view kept_unit(Dimension dimension) {
  switch (dimension) {
    case Dimension::word:
    case Dimension::count:
      return "";
    case Dimension::number:
      return "0.001";
    case Dimension::length:
      return "0.1 mm";
    case Dimension::diameter:
      return "0.1 um";
    case Dimension::flow:
      return "nl/h";
    case Dimension::pressure:
      return "Pa";
  }
  return {};
}

Json value_json(const AttributeValue& value) {
  if (value.dimension == Dimension::word) {
    if (value.words.size() == 1) return Json(value.words[0]);
    Json words = Json::array();
    for (const std::string& word : value.words) words.push(word);
    return words;
  }
  if (value.dimension == Dimension::count && value.low == value.high) return Json(value.low);
  Json out = Json::object();
  if (value.low == value.high) {
    out.set("value", value.low);
  } else {
    out.set("low", value.low).set("high", value.high);
  }
  if (value.dimension != Dimension::count) out.set("unit", std::string(kept_unit(value.dimension)));
  return out;
}

}  // namespace

AttributeValue word_value(const std::string& word) {
  AttributeValue value;
  value.words.push_back(lower_case(single_spaced(word)));
  return value;
}

AttributeValue number_value(Dimension dimension, std::int64_t value) { return range_value(dimension, value, value); }

AttributeValue range_value(Dimension dimension, std::int64_t low, std::int64_t high) {
  AttributeValue value;
  value.dimension = dimension;
  value.low = low;
  value.high = high;
  return value;
}

std::string to_text(const AttributeValue& value, UnitSystem units) {
  if (value.dimension == Dimension::word) return words_text(value.words);
  const std::string low = number_text(value.dimension, value.low, units);
  if (value.low == value.high) return low;
  return low + " to " + number_text(value.dimension, value.high, units);
}

std::string to_text(const PartSpec& spec, UnitSystem units) {
  std::string out = spec.kind;
  const auto append = [&](const std::string& name, const AttributeValue& value) {
    out += fmt::format(", {} {}", name, to_text(value, units));
  };
  // The size is what a buyer looks for first.
  const auto size = spec.attributes.find("size");
  if (size != spec.attributes.end()) append(size->first, size->second);
  for (const auto& [name, value] : spec.attributes) {
    if (name != "size") append(name, value);
  }
  return out;
}

Json to_json(const PartSpec& spec) {
  Json attributes = Json::object();
  for (const auto& [name, value] : spec.attributes) attributes.set(name, value_json(value));
  Json out = Json::object();
  out.set("kind", spec.kind).set("attributes", std::move(attributes));
  return out;
}

}  // namespace teetally
