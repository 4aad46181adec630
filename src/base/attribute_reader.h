#pragma once
// Attribute values from a file, as read_attribute in teetally/base/vocabulary.h, with the letter case of words
// kept where a kind takes free names.
#include "teetally/base/vocabulary.h"

namespace teetally {

enum class LetterCase { lowered, kept };

std::optional<AttributeValue> read_value(const YamlNode& node, const AttributeType& type, const BareUnits& bare,
                                         LetterCase letter_case, Diagnostics& diagnostics);

}  // namespace teetally
