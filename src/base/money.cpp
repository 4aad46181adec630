#include "teetally/base/money.h"

#include <fmt/format.h>

#include <limits>
#include <stdexcept>

#include "base/decimal.h"
#include "teetally/base/text.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

[[noreturn]] void overflow() { throw std::overflow_error("an amount of money leaves the 64-bit range"); }

Money narrowed(Wide minor) {
  if (minor > std::numeric_limits<std::int64_t>::max() || minor < std::numeric_limits<std::int64_t>::min()) overflow();
  return {static_cast<std::int64_t>(minor)};
}

std::size_t decimals_of(std::string_view text) {
  const std::size_t point = text.find('.');
  return point == std::string_view::npos ? 0 : text.size() - point - 1;
}

// Magnitude digits with `exponent` decimals, and thousands marks when asked for.
std::string digits_of(Money amount, int exponent, bool marks) {
  const bool negative = amount.minor < 0;
  const std::uint64_t magnitude =
      negative ? std::uint64_t{0} - static_cast<std::uint64_t>(amount.minor) : static_cast<std::uint64_t>(amount.minor);
  std::string digits = std::to_string(magnitude);
  const auto decimals = static_cast<std::size_t>(exponent);
  if (digits.size() <= decimals) digits.insert(0, decimals + 1 - digits.size(), '0');
  const std::size_t whole = digits.size() - decimals;
  if (decimals > 0) digits.insert(whole, ".");
  if (marks) {
    for (std::size_t at = whole; at > 3; at -= 3) digits.insert(at - 3, ",");
  }
  return (negative ? "-" : "") + digits;
}

}  // namespace

Money operator+(Money a, Money b) {
  Money out;
  if (__builtin_add_overflow(a.minor, b.minor, &out.minor)) overflow();
  return out;
}

Money operator-(Money a, Money b) {
  Money out;
  if (__builtin_sub_overflow(a.minor, b.minor, &out.minor)) overflow();
  return out;
}

Money operator-(Money a) { return Money{} - a; }

Money operator*(Money a, std::int64_t times) {
  Money out;
  if (__builtin_mul_overflow(a.minor, times, &out.minor)) overflow();
  return out;
}

Money& operator+=(Money& a, Money b) { return a = a + b; }
Money& operator-=(Money& a, Money b) { return a = a - b; }

Money share_of(Percent percent, Money total) {
  constexpr Wide kWhole = 1'000'000;
  const Wide scaled = static_cast<Wide>(percent.ppm) * total.minor + kWhole / 2;
  // Floor, so that a half goes up on both sides of zero.
  const Wide floor = scaled >= 0 ? scaled / kWhole : -((-scaled + kWhole - 1) / kWhole);
  return narrowed(floor);
}

tl::expected<Money, std::string> parse_money(std::string_view text, const Currency& currency) {
  text = trimmed(text);
  if (!text.empty() && text[0] == '-') {
    return tl::unexpected(fmt::format("{} is negative; expected an amount such as 12.50", quoted(text)));
  }
  const auto value = read_decimal(text);
  if (!value) {
    const bool known_shape = !text.empty() && is_digit(text.back()) && is_digit(text[0]);
    if (known_shape) return tl::unexpected(value.error());
    return tl::unexpected(
        fmt::format("{} is not an amount of money; expected digits such as 12.50, without a currency", quoted(text)));
  }
  if (decimals_of(text) > static_cast<std::size_t>(currency.exponent)) {
    return tl::unexpected(fmt::format("{} has {}, but {} has {}", quoted(text),
                                      counted(static_cast<std::int64_t>(decimals_of(text)), "decimal"), currency.code,
                                      currency.exponent == 0 ? "none" : std::to_string(currency.exponent)));
  }
  Fraction scaled = *value;
  for (int i = 0; i < currency.exponent; ++i) scaled.numerator *= 10;
  const Wide minor = scaled.numerator / scaled.denominator;
  if (minor > kLargestAmount) {
    return tl::unexpected(fmt::format("{} is too large; the largest amount is {}", quoted(text),
                                      to_text(Money{kLargestAmount}, currency)));
  }
  return Money{static_cast<std::int64_t>(minor)};
}

namespace {

// Nothing is nothing with or without a sign. Anything else could be meant as 10 of a hundred or as ten wholes.
std::string without_sign(std::string_view digits, const Fraction& value) {
  if (value.numerator > value.denominator) return fmt::format("{0} has no % sign; write {0} %", digits);
  const Fraction of_hundred{value.numerator * 100, value.denominator};
  return fmt::format("{0} has no % sign; write {1} % if that share of the whole is meant, or {0} %", digits,
                     trimmed_zeros(fixed_text(of_hundred, 4)));
}

}  // namespace

tl::expected<Percent, std::string> parse_percent(std::string_view text) {
  std::string_view digits = trimmed(text);
  const bool has_sign = !digits.empty() && digits.back() == '%';
  if (has_sign) digits = trimmed(digits.substr(0, digits.size() - 1));
  const auto value = read_decimal(digits);
  if (!value) return tl::unexpected(fmt::format("{}; expected a percentage such as 8.25 %", value.error()));
  if (decimals_of(digits) > 4) {
    return tl::unexpected(fmt::format("{} has more than 4 decimals", quoted(trimmed(text))));
  }
  if (!has_sign && value->numerator != 0) return tl::unexpected(without_sign(digits, *value));
  const Wide ppm = value->numerator * 10'000 / value->denominator;
  constexpr Wide kLargest = 10'000'000;  // 1000 %
  if (ppm > kLargest) return tl::unexpected(fmt::format("{} is more than 1000 %", quoted(trimmed(text))));
  return Percent{static_cast<std::int64_t>(ppm)};
}

std::string to_string(Money amount, const Currency& currency) { return digits_of(amount, currency.exponent, false); }
std::string to_text(Money amount, const Currency& currency) { return digits_of(amount, currency.exponent, true); }

std::string to_string(Percent percent) { return trimmed_zeros(fixed_text({percent.ppm, 10'000}, 4)) + " %"; }

}  // namespace teetally
