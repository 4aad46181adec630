#include <fmt/format.h>

#include <array>

#include "base/attribute_reader.h"
#include "teetally/base/text.h"
#include "teetally/base/vocabulary.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

// Keys that say how many of a part there are, never what it is.
constexpr std::array<std::string_view, 2> kAmounts = {"count", "length"};

bool is_amount(std::string_view key) { return key == kAmounts[0] || key == kAmounts[1]; }

// By its name in the singular or the plural.
const KindType* kind_called(const std::string& name, const Vocabulary& vocabulary) {
  if (const KindType* kind = vocabulary.find(name)) return kind;
  for (const KindType& kind : vocabulary.kinds) {
    if (name == (kind.plural.empty() ? kind.name + "s" : kind.plural)) return &kind;
  }
  return nullptr;
}

const KindType* read_kind(Fields& fields, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  if (fields.require("kind") == nullptr) return nullptr;
  const auto text = fields.text("kind");
  if (!text) return nullptr;
  const std::string name = lower_case(single_spaced(*text));
  if (const KindType* kind = kind_called(name, vocabulary)) return kind;
  Diagnostic& error = diagnostics.error("base/unknown-kind", fields.place_of("kind"),
                                        fmt::format("unknown kind of part {}", quoted(name)));
  const auto near = nearest_word(name, vocabulary.kind_names());
  error.help = near ? fmt::format("did you mean {}?", quoted(*near))
                    : fmt::format("known kinds: {}; 'other' takes any name", listed(vocabulary.kind_names()));
  return nullptr;
}

}  // namespace

std::optional<PartSpec> read_part(Fields& fields, const Vocabulary& vocabulary, const BareUnits& bare,
                                  Diagnostics& diagnostics) {
  if (!fields.is_mapping()) {
    fields.forgive();
    return std::nullopt;
  }
  const KindType* kind = read_kind(fields, vocabulary, diagnostics);
  if (kind == nullptr) {
    fields.forgive();
    return std::nullopt;
  }
  PartSpec spec;
  spec.kind = kind->name;
  bool good = true;
  const LetterCase letter_case = kind->open ? LetterCase::kept : LetterCase::lowered;
  const auto read = [&](const AttributeType& type) {
    const YamlNode* node = fields.find(type.name);
    if (node == nullptr) return;
    const auto value = read_value(*node, type, bare, letter_case, diagnostics);
    good = good && value.has_value();
    if (value) spec.attributes.emplace(type.name, *value);
  };
  for (const AttributeType& type : kind->attributes) read(type);
  if (kind->open) {
    for (const std::string& key : fields.unasked()) {
      if (!is_amount(key)) read({key, Dimension::word, Match::equal, "", {}});
    }
  }
  if (!good) return std::nullopt;
  return spec;
}

}  // namespace teetally
