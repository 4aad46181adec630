#pragma once
// Exact numbers as people write them. Digits become a fraction of 128-bit integers, so that nothing is rounded
// before the one rounding to the unit a quantity is kept in.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace teetally {

__extension__ typedef __int128 Wide;

// numerator / denominator, the denominator positive; not necessarily reduced.
struct Fraction {
  Wide numerator = 0;
  Wide denominator = 1;
};

// Nothing when a product leaves 128 bits.
std::optional<Fraction> sum(Fraction a, Fraction b);
std::optional<Fraction> product(Fraction a, Fraction b);
// To the nearest whole number, halves away from zero; nothing when it leaves 64 bits.
std::optional<std::int64_t> rounded(Fraction value);

// "12", "0.85", ".5": digits and a point, no sign. At most 12 digits before and 9 after the point. The error
// says what is wrong with the text: a comma, a leading zero, a hexadecimal or exponent form, a sign.
tl::expected<Fraction, std::string> read_decimal(std::string_view text);

// The value with a fixed number of decimals, halves away from zero; trimmed drops final zeros and a final point.
std::string fixed_text(Fraction value, int decimals);
std::string trimmed_zeros(std::string text);

}  // namespace teetally
