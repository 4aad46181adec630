#pragma once
// A part specification: a kind ("tee") with attributes ("size: 1/2 in"). The same type says what a need asks
// for and what an item is; the vocabulary says how the two sides of each attribute are compared.
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "teetally/base/json.h"
#include "teetally/base/place.h"
#include "teetally/base/quantity.h"

namespace teetally {

// What an attribute's number means: word attributes hold words; the others hold integers in these units.
enum class Dimension {
  word,      // one or more words
  count,     // whole number
  number,    // thousandths
  length,    // tenths of a millimetre
  diameter,  // tenths of a micrometre
  flow,      // nanolitres per hour
  pressure,  // pascals
};

// One value: words, or a closed range of numbers (low == high for a single one).
struct AttributeValue {
  Dimension dimension = Dimension::word;
  std::vector<std::string> words;
  std::int64_t low = 0;
  std::int64_t high = 0;
  bool operator==(const AttributeValue&) const = default;
  auto operator<=>(const AttributeValue&) const = default;
};
AttributeValue word_value(const std::string& word);
AttributeValue number_value(Dimension dimension, std::int64_t value);
AttributeValue range_value(Dimension dimension, std::int64_t low, std::int64_t high);
std::string to_text(const AttributeValue& value, UnitSystem units);

struct PartSpec {
  std::string kind;
  std::map<std::string, AttributeValue> attributes;
  bool operator==(const PartSpec&) const = default;
  auto operator<=>(const PartSpec&) const = default;
};
// "tee, size 1/2 in"
std::string to_text(const PartSpec& spec, UnitSystem units);
Json to_json(const PartSpec& spec);

}  // namespace teetally
