#include <fmt/format.h>

#include <algorithm>

#include "teetally/base/as_written.h"
#include "teetally/base/text.h"
#include "teetally/base/vocabulary.h"

namespace teetally {
namespace {

bool share_a_word(const AttributeValue& a, const AttributeValue& b) {
  for (const std::string& one : a.words) {
    for (const std::string& other : b.words) {
      if (one == other || lower_case(single_spaced(one)) == lower_case(single_spaced(other))) return true;
    }
  }
  return false;
}

// Makers print pressures rounded to a tenth of a bar, or to whole psi: a regulator of 25 psi (1.72 bar) is sold as
// 1.7 bar. Half a tenth apart is one pressure; those on sale are 5 psi (0.34 bar) apart.
constexpr std::int64_t kSamePressure = 5'000;  // Pa

bool lies_inside(const AttributeValue& inner, const AttributeValue& outer) {
  const std::int64_t slack = inner.dimension == Dimension::pressure ? kSamePressure : 0;
  return outer.low - slack <= inner.low && inner.high <= outer.high + slack;
}

bool serves(const AttributeValue& wanted, const AttributeValue& item, Match match) {
  if (wanted.dimension != item.dimension) return false;
  if (wanted.dimension == Dimension::word) return share_a_word(wanted, item);
  switch (match) {
    case Match::at_least:
      return item.high >= wanted.high;
    case Match::at_most:
      return item.low <= wanted.low;
    // A single number equals a range when it is one of the range's numbers.
    case Match::equal:
    case Match::one_of:
    case Match::within:
      return lies_inside(wanted, item) || lies_inside(item, wanted);
  }
  return false;
}

std::string_view wanted_words(Match match, Dimension dimension) {
  if (dimension == Dimension::word) return "wanted";
  if (match == Match::at_least) return "wanted at least";
  if (match == Match::at_most) return "wanted at most";
  return "wanted";
}

// "flow is 1.9 l/h, wanted 0.5 gph": both in one system of units, unless they would read the same.
std::string told_apart(const std::string& name, const AttributeValue& wanted, const AttributeValue& item, Match match,
                       UnitSystem units) {
  const bool alike = to_text(wanted, units) == to_text(item, units);
  return fmt::format("{} is {}, {} {}", name, alike ? as_written(item) : to_text(item, units),
                     wanted_words(match, wanted.dimension), alike ? as_written(wanted) : to_text(wanted, units));
}

Match match_for(const KindType* kind, const std::string& attribute) {
  if (kind == nullptr) return Match::equal;
  for (const AttributeType& type : kind->attributes) {
    if (type.name == attribute) return type.match;
  }
  return Match::equal;
}

std::string article(std::string_view noun) {
  constexpr std::string_view kVowels = "aeiou";
  return kVowels.find(noun.empty() ? 'x' : noun[0]) == std::string_view::npos ? "a" : "an";
}

}  // namespace

std::optional<std::string> mismatch(const PartSpec& wanted, const PartSpec& item, const Vocabulary& vocabulary,
                                    UnitSystem units) {
  if (wanted.kind != item.kind) {
    return fmt::format("it is {} {}, wanted {} {}", article(item.kind), item.kind, article(wanted.kind), wanted.kind);
  }
  const KindType* kind = vocabulary.find(wanted.kind);
  for (const auto& [name, value] : wanted.attributes) {
    const Match match = match_for(kind, name);
    const auto has = item.attributes.find(name);
    if (has == item.attributes.end()) {
      return fmt::format("{} is not stated, {} {}", name, wanted_words(match, value.dimension), to_text(value, units));
    }
    if (!serves(value, has->second, match)) return told_apart(name, value, has->second, match, units);
  }
  return std::nullopt;
}

}  // namespace teetally
