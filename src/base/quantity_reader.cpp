#include <fmt/format.h>

#include <cstdlib>

#include "base/decimal.h"
#include "base/units.h"
#include "base/utf8.h"
#include "teetally/base/quantity.h"
#include "teetally/base/text.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

using Answer = tl::expected<Fraction, std::string>;

struct Vulgar {
  std::string_view sign;
  Fraction value;
};
constexpr Vulgar kVulgar[] = {{"½", {1, 2}}, {"¼", {1, 4}}, {"¾", {3, 4}}, {"⅓", {1, 3}}, {"⅔", {2, 3}},
                              {"⅛", {1, 8}}, {"⅜", {3, 8}}, {"⅝", {5, 8}}, {"⅞", {7, 8}}};

// Reads one quantity from left to right: a sign, then terms of an amount and a unit.
class Scanner {
 public:
  Scanner(std::string_view text, const UnitTable& table, std::string_view bare, bool sums)
      : all_(text), rest_(trimmed(text)), table_(table), bare_(bare), sums_(sums) {}

  Answer read() {
    if (rest_.empty()) return complain("nothing is given");
    const bool negative = take("-") || take("−");
    Answer total = read_term();
    while (total && !rest_.empty()) {
      if (!sums_) return complain(fmt::format("{} is left over after the unit", quoted(rest_)));
      const Answer term = read_term();
      if (!term) return term;
      const auto added = sum(*total, *term);
      if (!added) return too_large();
      total = *added;
    }
    if (total && negative) total->numerator = -total->numerator;
    return total;
  }

  std::string too_large_text() const { return fmt::format("{} is too large for {}", quoted(all_), table_.article); }

 private:
  tl::unexpected<std::string> complain(const std::string& what) const {
    return tl::unexpected(
        fmt::format("{} is not {}: {}; write it like {}", quoted(all_), table_.article, what, table_.example));
  }
  tl::unexpected<std::string> too_large() const { return tl::unexpected(too_large_text()); }

  void skip_spaces() { rest_ = trimmed(rest_); }

  bool take(std::string_view sign) {
    if (rest_.substr(0, sign.size()) != sign) return false;
    rest_.remove_prefix(sign.size());
    skip_spaces();
    return true;
  }

  std::string_view take_digits() {
    std::size_t end = 0;
    while (end < rest_.size() && (is_digit(rest_[end]) || rest_[end] == '.' || rest_[end] == ',')) ++end;
    // "0x1F" and "1e3" are taken whole, so that the complaint is about the number and not about a unit.
    if (end > 0 && end + 1 < rest_.size()) {
      const char next = rest_[end];
      const bool hexadecimal = (next == 'x' || next == 'X') && rest_.substr(0, end) == "0";
      const bool exponent =
          (next == 'e' || next == 'E') && (is_digit(rest_[end + 1]) || rest_[end + 1] == '+' || rest_[end + 1] == '-');
      if (hexadecimal || exponent) end = std::min(rest_.find(' '), rest_.size());
    }
    const std::string_view digits = rest_.substr(0, end);
    rest_.remove_prefix(end);
    return digits;
  }

  const Vulgar* take_vulgar() {
    for (const Vulgar& vulgar : kVulgar) {
      if (rest_.substr(0, vulgar.sign.size()) != vulgar.sign) continue;
      rest_.remove_prefix(vulgar.sign.size());
      return &vulgar;
    }
    return nullptr;
  }

  // The length of "1/2" at the start of the text, 0 when there is no such fraction.
  static bool fraction_follows(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size() && is_digit(text[at])) ++at;
    return at > 0 && at + 1 < text.size() && text[at] == '/' && is_digit(text[at + 1]);
  }

  Answer read_fraction_below(std::string_view numerator) {
    rest_.remove_prefix(1);
    const auto above = read_decimal(numerator);
    const std::string_view below_text = take_digits();
    const auto below = read_decimal(below_text);
    if (!above) return complain(above.error());
    if (!below) return complain(below.error());
    if (above->denominator != 1 || below->denominator != 1)
      return complain("a fraction has whole numbers, such as 1/2");
    if (below->numerator == 0) return complain("a fraction cannot have 0 below its stroke");
    if (below->numerator > 1000) return complain("a fraction has at most 1000 below its stroke");
    return Fraction{above->numerator, below->numerator};
  }

  // "6", "6.5", "1/2", "6 1/2", "6-1/2", "6½", "½".
  Answer read_amount() {
    has_fraction_ = false;
    if (const Vulgar* vulgar = take_vulgar()) {
      has_fraction_ = true;
      return vulgar->value;
    }
    const std::string_view digits = take_digits();
    if (digits.empty()) return complain("a number is missing before " + quoted(rest_));
    if (!rest_.empty() && rest_[0] == '/' && rest_.size() > 1 && is_digit(rest_[1])) {
      has_fraction_ = true;
      return read_fraction_below(digits);
    }
    const auto whole = read_decimal(digits);
    if (!whole) return complain(whole.error());
    return with_fraction(*whole);
  }

  Answer with_fraction(Fraction whole) {
    has_fraction_ = whole.denominator != 1;
    std::string_view ahead = trimmed(rest_);
    const bool dashed = !ahead.empty() && ahead[0] == '-';
    if (dashed) ahead = trimmed(ahead.substr(1));
    Answer part = Fraction{0, 1};
    if (fraction_follows(ahead)) {
      rest_ = ahead;
      part = read_fraction_below(take_digits());
    } else if (const std::string_view before = rest_; true) {
      rest_ = ahead;
      const Vulgar* vulgar = take_vulgar();
      if (vulgar == nullptr) {
        rest_ = before;
        return whole;
      }
      part = vulgar->value;
    }
    if (!part) return part;
    if (whole.denominator != 1 || part->numerator >= part->denominator) {
      return complain("a mixed number is a whole number and a fraction below one, such as 6 1/2");
    }
    has_fraction_ = true;
    return *sum(whole, *part);
  }

  // In a sum a unit ends at a space, a digit or a sign of its own; elsewhere the whole rest is the unit.
  std::string_view take_unit() {
    skip_spaces();
    std::size_t end = rest_.size();
    if (sums_) {
      end = 0;
      const bool letters = !rest_.empty() && is_letter(rest_[0]);
      while (end < rest_.size() && rest_[end] != ' ' && !is_digit(rest_[end]) && rest_[end] != '-' &&
             rest_[end] != '.' && (!letters || is_letter(rest_[end]))) {
        ++end;
      }
      for (const Vulgar& vulgar : kVulgar) end = std::min(end, rest_.find(vulgar.sign));
    }
    const std::string_view unit = rest_.substr(0, end);
    rest_.remove_prefix(end);
    skip_spaces();
    return unit;
  }

  static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

  Answer read_term() {
    if (has_fraction_) return complain("only its last number may have a fraction");
    const Answer amount = read_amount();
    if (!amount) return amount;
    const std::string_view spelling = take_unit();
    if (spelling.empty()) {
      if (last_ != nullptr || !rest_.empty()) return complain("a number in it has no unit");
      return in_bare_unit(*amount);
    }
    const Unit* unit = find_unit(table_, spelling);
    if (unit == nullptr) return complain(unknown_unit(table_, spelling));
    if (last_ != nullptr && !smaller(*unit, *last_))
      return complain("each part of a sum has a smaller unit than the one before");
    last_ = unit;
    return in_unit(*amount, *unit);
  }

  Answer in_bare_unit(Fraction amount) {
    if (bare_.empty()) {
      // Nothing is nothing in every unit.
      if (amount.numerator == 0) return amount;
      return complain("it has no unit, and this file declares none for a bare number");
    }
    const Unit* unit = find_unit(table_, bare_);
    if (unit == nullptr) return complain(unknown_unit(table_, bare_));
    return in_unit(amount, *unit);
  }

  Answer in_unit(Fraction amount, const Unit& unit) {
    const auto value = product(amount, unit.size);
    if (!value) return too_large();
    return *value;
  }

  static bool smaller(const Unit& a, const Unit& b) {
    return a.size.numerator * b.size.denominator < b.size.numerator * a.size.denominator;
  }

  std::string_view all_;
  std::string_view rest_;
  const UnitTable& table_;
  std::string_view bare_;
  bool sums_;
  bool has_fraction_ = false;  // of the term read last
  const Unit* last_ = nullptr;
};

tl::expected<std::int64_t, std::string> read_quantity(std::string_view text, const UnitTable& table,
                                                      std::string_view bare, bool sums, bool signs) {
  Scanner scanner(text, table, bare, sums);
  const Answer value = scanner.read();
  if (!value) return tl::unexpected(value.error());
  const auto kept = rounded(*value);
  if (!kept || *kept > table.largest || *kept < -table.largest) return tl::unexpected(scanner.too_large_text());
  if (!signs && value->numerator < 0) {
    return tl::unexpected(fmt::format("{} is negative; {} cannot be", quoted(trimmed(text)), table.article));
  }
  return *kept;
}

}  // namespace

tl::expected<Length, std::string> parse_length(std::string_view text, const BareUnits& bare) {
  return read_quantity(text, length_units(), bare.length, true, true).map([](std::int64_t n) { return Length{n}; });
}

// A diameter has no bare unit of its own: in a file whose lengths are feet, a bare 0.6 would be read as feet.
tl::expected<Diameter, std::string> parse_diameter(std::string_view text, const BareUnits& bare) {
  const bool small = bare.length == "in" || bare.length == "mm";
  return read_quantity(text, diameter_units(), small ? std::string_view(bare.length) : std::string_view(), false, false)
      .map([](std::int64_t n) { return Diameter{n}; });
}

tl::expected<Flow, std::string> parse_flow(std::string_view text, const BareUnits& bare) {
  return read_quantity(text, flow_units(), bare.flow, false, false).map([](std::int64_t n) { return Flow{n}; });
}

tl::expected<Pressure, std::string> parse_pressure(std::string_view text, const BareUnits& bare) {
  return read_quantity(text, pressure_units(), bare.pressure, false, false).map([](std::int64_t n) {
    return Pressure{n};
  });
}

tl::expected<Volume, std::string> parse_volume(std::string_view text, const BareUnits& bare) {
  return read_quantity(text, volume_units(), bare.volume, false, false).map([](std::int64_t n) { return Volume{n}; });
}

tl::expected<std::int64_t, std::string> parse_count(std::string_view text) {
  std::string_view digits = trimmed(text);
  const bool negative = !digits.empty() && digits[0] == '-';
  if (negative) digits.remove_prefix(1);
  const auto value = read_decimal(digits);
  if (!value) {
    const bool starts_as_one = digits.empty() || is_digit(digits[0]);
    if (starts_as_one) return tl::unexpected(value.error());
    return tl::unexpected(fmt::format("{} is not a whole number; expected digits such as 12", quoted(trimmed(text))));
  }
  if (value->denominator != 1) return tl::unexpected(fmt::format("{} is not a whole number", quoted(trimmed(text))));
  const auto count = static_cast<std::int64_t>(value->numerator);
  return negative ? -count : count;
}

tl::expected<double, std::string> parse_number(std::string_view text) {
  std::string_view digits = trimmed(text);
  const bool negative = !digits.empty() && digits[0] == '-';
  if (negative) digits.remove_prefix(1);
  const auto value = read_decimal(digits);
  if (!value) return tl::unexpected(value.error());
  // Both parts are exact doubles below 2^53 for every number of fifteen digits, so one division rounds once.
  const double magnitude = static_cast<double>(value->numerator) / static_cast<double>(value->denominator);
  return negative ? -magnitude : magnitude;
}

}  // namespace teetally
