#include "base/decimal.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "teetally/base/text.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

constexpr std::size_t kMostWholeDigits = 12;
constexpr std::size_t kMostDecimals = 9;

bool all_digits(std::string_view text) { return std::all_of(text.begin(), text.end(), is_digit); }

bool starts_like_hexadecimal(std::string_view text) {
  return text.size() > 2 && text[0] == '0' && (text[1] == 'x' || text[1] == 'X' || text[1] == 'o' || text[1] == 'b');
}

bool has_exponent(std::string_view text) {
  const std::size_t at = text.find_first_of("eE");
  return at != std::string_view::npos && at > 0 && at + 1 < text.size() &&
         (is_digit(text[at + 1]) || text[at + 1] == '-' || text[at + 1] == '+');
}

// "1,234" and "1,234.50" are thousands marks; "3,20" is a decimal comma.
std::string comma_complaint(std::string_view text) {
  std::string without(text);
  const std::size_t comma = text.find(',');
  const bool point = text.find('.') != std::string_view::npos;
  const bool thousands = point || text.find(',', comma + 1) != std::string_view::npos || text.size() - comma == 4;
  if (thousands) {
    without.erase(std::remove(without.begin(), without.end(), ','), without.end());
    return fmt::format("{} has a comma in it; write it without: {}", quoted(text), without);
  }
  std::replace(without.begin(), without.end(), ',', '.');
  return fmt::format("{} has a comma in it; use a point: {}", quoted(text), without);
}

std::string complaint(std::string_view text) {
  if (text.empty()) return "a number is missing";
  if (text[0] == '+' || text[0] == '-') return fmt::format("{} has a sign; expected plain digits", quoted(text));
  if (starts_like_hexadecimal(text))
    return fmt::format("{} is not a decimal number; write it with the digits 0 to 9", quoted(text));
  if (is_digit(text[0]) && has_exponent(text))
    return fmt::format("{} has an exponent; write the number out", quoted(text));
  if (is_digit(text[0]) && text.find(',') != std::string_view::npos) return comma_complaint(text);
  return fmt::format("{} is not a number; expected digits such as 12 or 0.5", quoted(text));
}

Wide power_of_ten(std::size_t exponent) {
  Wide power = 1;
  while (exponent-- > 0) power *= 10;
  return power;
}

Wide digits_value(std::string_view digits) {
  Wide value = 0;
  for (const char c : digits) value = value * 10 + (c - '0');
  return value;
}

std::string digits_text(Wide value) {
  std::string out;
  do {
    out.insert(out.begin(), static_cast<char>('0' + static_cast<int>(value % 10)));
    value /= 10;
  } while (value > 0);
  return out;
}

Wide rounded_quotient(Wide numerator, Wide denominator) {
  const Wide half = denominator / 2;
  return numerator >= 0 ? (numerator + half) / denominator : -((-numerator + half) / denominator);
}

}  // namespace

std::optional<Fraction> sum(Fraction a, Fraction b) {
  Wide left = 0, right = 0;
  Fraction out;
  if (__builtin_mul_overflow(a.numerator, b.denominator, &left)) return std::nullopt;
  if (__builtin_mul_overflow(b.numerator, a.denominator, &right)) return std::nullopt;
  if (__builtin_add_overflow(left, right, &out.numerator)) return std::nullopt;
  if (__builtin_mul_overflow(a.denominator, b.denominator, &out.denominator)) return std::nullopt;
  return out;
}

std::optional<Fraction> product(Fraction a, Fraction b) {
  Fraction out;
  if (__builtin_mul_overflow(a.numerator, b.numerator, &out.numerator)) return std::nullopt;
  if (__builtin_mul_overflow(a.denominator, b.denominator, &out.denominator)) return std::nullopt;
  return out;
}

std::optional<std::int64_t> rounded(Fraction value) {
  // Halving before adding keeps the rounding itself inside 128 bits for every fraction that fits.
  const Wide limit = std::numeric_limits<Wide>::max() / 2;
  if (value.numerator > limit || value.numerator < -limit || value.denominator > limit) return std::nullopt;
  const Wide whole = rounded_quotient(value.numerator, value.denominator);
  if (whole > std::numeric_limits<std::int64_t>::max() || whole < std::numeric_limits<std::int64_t>::min()) {
    return std::nullopt;
  }
  return static_cast<std::int64_t>(whole);
}

tl::expected<Fraction, std::string> read_decimal(std::string_view text) {
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  const std::string_view decimals = point == std::string_view::npos ? std::string_view() : text.substr(point + 1);
  const bool shaped = all_digits(whole) && all_digits(decimals) && !(whole.empty() && decimals.empty());
  if (!shaped) return tl::unexpected(complaint(text));
  if (point != std::string_view::npos && decimals.empty()) {
    return tl::unexpected(fmt::format("{} ends in a point; write {}", quoted(text), whole));
  }
  if (whole.size() > 1 && whole[0] == '0') {
    return tl::unexpected(fmt::format("{} starts with a zero; write the number without it", quoted(text)));
  }
  if (whole.size() > kMostWholeDigits) return tl::unexpected(fmt::format("{} is too large", quoted(text)));
  if (decimals.size() > kMostDecimals) {
    return tl::unexpected(fmt::format("{} has more than {} decimals", quoted(text), kMostDecimals));
  }
  const Wide scale = power_of_ten(decimals.size());
  return Fraction{digits_value(whole) * scale + digits_value(decimals), scale};
}

std::string fixed_text(Fraction value, int decimals) {
  const auto places = static_cast<std::size_t>(decimals);
  const Wide scaled = rounded_quotient(value.numerator * power_of_ten(places), value.denominator);
  std::string digits = digits_text(scaled < 0 ? -scaled : scaled);
  if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
  if (places > 0) digits.insert(digits.size() - places, ".");
  return (scaled < 0 ? "-" : "") + digits;
}

std::string trimmed_zeros(std::string text) {
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

}  // namespace teetally
