#include <fmt/format.h>

#include <algorithm>

#include "teetally/base/text.h"
#include "teetally/base/vocabulary.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

const BareUnits kNoUnits;

Dimension dimension_of(std::string_view word) {
  if (word == "count") return Dimension::count;
  if (word == "number") return Dimension::number;
  if (word == "length") return Dimension::length;
  if (word == "diameter") return Dimension::diameter;
  if (word == "flow") return Dimension::flow;
  if (word == "pressure") return Dimension::pressure;
  return Dimension::word;
}

Match match_of(std::string_view word) {
  if (word == "at_least") return Match::at_least;
  if (word == "at_most") return Match::at_most;
  if (word == "within") return Match::within;
  if (word == "one_of") return Match::one_of;
  return Match::equal;
}

// Words have no order, and one of a list of numbers is a range.
bool fits(Dimension dimension, Match match) {
  if (match == Match::equal) return true;
  return (dimension == Dimension::word) == (match == Match::one_of);
}

std::optional<AttributeType> read_attribute_type(const YamlNode& node, Diagnostics& diagnostics) {
  Fields fields(node, "base", "an attribute", kNoUnits, diagnostics);
  AttributeType type;
  type.place = node.place;
  fields.require("name");
  const auto name = fields.text("name");
  const auto dimension = fields.one_of("type", {"word", "count", "number", "length", "diameter", "flow", "pressure"});
  const auto match = fields.one_of("match", {"equal", "at_least", "at_most", "within", "one_of"});
  type.about = fields.text("about").value_or("");
  fields.finish();
  if (!name) return std::nullopt;
  type.name = lower_case(single_spaced(*name));
  type.dimension = dimension_of(dimension.value_or("word"));
  type.match = match_of(match.value_or("equal"));
  if (!fits(type.dimension, type.match)) {
    diagnostics
        .error("base/bad-match", fields.place_of("match"),
               fmt::format("the attribute {} is of type {}, which cannot be compared by {}", quoted(type.name),
                           dimension.value_or("word"), match.value_or("equal")))
        .help = "words compare by equal or one_of, numbers by equal, at_least, at_most or within";
    return std::nullopt;
  }
  return type;
}

void add_attribute(KindType& kind, AttributeType type, Diagnostics& diagnostics) {
  for (const AttributeType& known : kind.attributes) {
    if (known.name != type.name) continue;
    Diagnostic& error = diagnostics.error(
        "base/attribute-exists", type.place,
        fmt::format("the kind {} has the attribute {} already", quoted(kind.name), quoted(type.name)));
    error.help = "an existing kind may only gain attributes of new names";
    error.notes.push_back({"it is given here", known.place});
    return;
  }
  constexpr std::string_view kReserved[] = {"kind", "count", "length"};
  if (std::find(std::begin(kReserved), std::end(kReserved), type.name) != std::end(kReserved)) {
    diagnostics
        .error("base/bad-attribute", type.place, fmt::format("an attribute cannot be called {}", quoted(type.name)))
        .help = "kind, count and length already say what a part is and how much of it there is";
    return;
  }
  kind.attributes.push_back(std::move(type));
}

// Settings that only a new kind may state.
struct Settings {
  std::optional<std::string> plural, about;
  std::optional<bool> by_length, open;
  std::vector<std::string> ends;
  bool any = false;
};

Settings read_settings(Fields& fields) {
  Settings out;
  for (const char* key : {"plural", "by length", "open", "ends"}) out.any = fields.has(key) || out.any;
  out.plural = fields.text("plural");
  out.about = fields.text("about");
  out.by_length = fields.yes_no("by length");
  out.open = fields.yes_no("open");
  out.ends = fields.texts("ends");
  return out;
}

void read_kind_type(Vocabulary& vocabulary, const YamlNode& node, Diagnostics& diagnostics) {
  Fields fields(node, "base", "a kind", kNoUnits, diagnostics);
  fields.require("kind");
  const auto text = fields.text("kind");
  Settings settings = read_settings(fields);
  const std::vector<const YamlNode*> attributes = fields.list("attributes");
  fields.finish();
  if (!text) return;
  const std::string name = lower_case(single_spaced(*text));
  auto kind = std::find_if(vocabulary.kinds.begin(), vocabulary.kinds.end(),
                           [&](const KindType& known) { return known.name == name; });
  if (kind == vocabulary.kinds.end()) {
    KindType fresh;
    fresh.name = name;
    fresh.plural = settings.plural.value_or("");
    fresh.about = settings.about.value_or("");
    fresh.by_length = settings.by_length.value_or(false);
    fresh.open = settings.open.value_or(false);
    fresh.ends = std::move(settings.ends);
    fresh.place = fields.place_of("kind");
    vocabulary.kinds.push_back(std::move(fresh));
    kind = std::prev(vocabulary.kinds.end());
  } else if (settings.any) {
    Diagnostic& error = diagnostics.error("base/kind-exists", fields.place_of("kind"),
                                          fmt::format("the kind {} exists already", quoted(name)));
    error.help = "it may only gain attributes; give a kind of your own another name";
    error.notes.push_back({"it is given here", kind->place});
    return;
  }
  for (const YamlNode* attribute : attributes) {
    if (auto type = read_attribute_type(*attribute, diagnostics)) add_attribute(*kind, std::move(*type), diagnostics);
  }
}

}  // namespace

void extend_vocabulary(Vocabulary& vocabulary, const YamlNode& root, Diagnostics& diagnostics) {
  Fields fields(root, "base", "the vocabulary", kNoUnits, diagnostics);
  if (!fields.is_mapping()) return;
  fields.require("teetally");
  fields.one_of("teetally", {"vocabulary 1"});
  fields.require("kinds");
  for (const YamlNode* kind : fields.list("kinds")) read_kind_type(vocabulary, *kind, diagnostics);
  fields.finish();
}

}  // namespace teetally
