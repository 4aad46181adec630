#include "base/attribute_reader.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/decimal.h"
#include "teetally/base/text.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

using Number = tl::expected<std::int64_t, std::string>;

Number read_thousandths(std::string_view text) {
  std::string_view digits = trimmed(text);
  const bool negative = !digits.empty() && digits[0] == '-';
  if (negative) digits.remove_prefix(1);
  const auto value = read_decimal(digits);
  if (!value) return tl::unexpected(value.error());
  const auto scaled = rounded({value->numerator * 1000, value->denominator});
  if (!scaled) return tl::unexpected(fmt::format("{} is too large", quoted(text)));
  return negative ? -*scaled : *scaled;
}

Number read_number(std::string_view text, Dimension dimension, const BareUnits& bare) {
  switch (dimension) {
    case Dimension::word:
      break;
    case Dimension::count:
      return parse_count(text);
    case Dimension::number:
      return read_thousandths(text);
    case Dimension::length:
      return parse_length(text, bare).map([](Length v) { return v.tenths_mm; });
    case Dimension::diameter:
      return parse_diameter(text, bare).map([](Diameter v) { return v.tenths_um; });
    case Dimension::flow:
      return parse_flow(text, bare).map([](Flow v) { return v.nl_per_h; });
    case Dimension::pressure:
      return parse_pressure(text, bare).map([](Pressure v) { return v.pa; });
  }
  return tl::unexpected(std::string("words are not numbers"));
}

tl::expected<AttributeValue, std::string> read_numbers(std::string_view text, Dimension dimension,
                                                       const BareUnits& bare) {
  constexpr std::string_view kTo = " to ";
  const std::size_t at = text.find(kTo);
  if (at == std::string_view::npos) {
    return read_number(text, dimension, bare).map([&](std::int64_t n) { return number_value(dimension, n); });
  }
  const std::string_view from = trimmed(text.substr(0, at));
  const std::string_view to = trimmed(text.substr(at + kTo.size()));
  // In "10 to 60 l/h" the bare 10 would silently take the file's unit.
  const bool from_bare = !from.empty() && is_digit(from.back());
  const bool to_bare = !to.empty() && is_digit(to.back());
  if (from_bare != to_bare) {
    return tl::unexpected(fmt::format("{} has a unit at one end only; give both ends theirs", quoted(text)));
  }
  const Number low = read_number(from, dimension, bare);
  if (!low) return tl::unexpected(low.error());
  const Number high = read_number(to, dimension, bare);
  if (!high) return tl::unexpected(high.error());
  if (*low > *high) return tl::unexpected(fmt::format("{} runs backwards; write the smaller end first", quoted(text)));
  return range_value(dimension, *low, *high);
}

std::string word_form(std::string_view text, LetterCase letter_case) {
  const std::string word = single_spaced(text);
  return letter_case == LetterCase::lowered ? lower_case(word) : word;
}

class Reader {
 public:
  Reader(const AttributeType& type, const BareUnits& bare, LetterCase letter_case, Diagnostics& diagnostics)
      : type_(type), bare_(bare), letter_case_(letter_case), diagnostics_(diagnostics) {}

  std::optional<AttributeValue> read(const YamlNode& node) {
    if (type_.dimension == Dimension::word && node.kind == YamlNode::Kind::sequence) return read_words(node);
    if (node.kind != YamlNode::Kind::scalar) return fail(node, fmt::format("{}; expected {}", found(node), expected()));
    if (type_.dimension == Dimension::word) return read_word(node);
    const auto value = read_numbers(node.text, type_.dimension, bare_);
    if (!value) return fail(node, value.error());
    return *value;
  }

 private:
  static std::string found(const YamlNode& node) {
    return node.kind == YamlNode::Kind::null ? "it has no value" : "it is " + describe(node);
  }

  std::string expected() const {
    return type_.dimension == Dimension::word ? "a word or a list of words" : "one value, or a range such as '1 to 2'";
  }

  std::optional<AttributeValue> read_word(const YamlNode& node) {
    std::string word = word_form(node.text, letter_case_);
    if (word.empty()) return fail(node, "the text is empty");
    // yes and no are words here; files may spell them as truth values.
    if (!node.quoted && lower_case(word) == "true") word = "yes";
    if (!node.quoted && lower_case(word) == "false") word = "no";
    AttributeValue value;
    value.words.push_back(std::move(word));
    return value;
  }

  std::optional<AttributeValue> read_words(const YamlNode& list) {
    AttributeValue value;
    if (list.items.empty()) return fail(list, "the list is empty");
    for (const YamlNode& item : list.items) {
      if (item.kind != YamlNode::Kind::scalar) return fail(item, fmt::format("{}; expected a word", found(item)));
      const auto word = read_word(item);
      if (!word) return std::nullopt;
      value.words.push_back(word->words[0]);
    }
    // The order of alternatives means nothing, so that equal sets are equal values.
    std::sort(value.words.begin(), value.words.end());
    value.words.erase(std::unique(value.words.begin(), value.words.end()), value.words.end());
    return value;
  }

  std::nullopt_t fail(const YamlNode& node, const std::string& what) {
    if (node.place.known()) {
      diagnostics_.error("base/bad-attribute", node.place, fmt::format("{}: {}", quoted(type_.name), what));
    }
    return std::nullopt;
  }

  const AttributeType& type_;
  const BareUnits& bare_;
  LetterCase letter_case_;
  Diagnostics& diagnostics_;
};

}  // namespace

std::optional<AttributeValue> read_value(const YamlNode& node, const AttributeType& type, const BareUnits& bare,
                                         LetterCase letter_case, Diagnostics& diagnostics) {
  return Reader(type, bare, letter_case, diagnostics).read(node);
}

std::optional<AttributeValue> read_attribute(const YamlNode& node, const AttributeType& type, const BareUnits& bare,
                                             Diagnostics& diagnostics) {
  return read_value(node, type, bare, LetterCase::lowered, diagnostics);
}

}  // namespace teetally
