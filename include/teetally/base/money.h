#pragma once
// Money is a whole number of minor units (cents) of the one currency of a run; it is never binary floating
// point. Sums and products are checked: leaving the 64-bit range throws std::overflow_error, which no
// accepted input can reach (readers cap every price and every count).
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace teetally {

// ISO 4217 code and the number of decimal places its minor unit has (USD 2, JPY 0, KWD 3).
struct Currency {
  std::string code = "USD";
  int exponent = 2;
  bool operator==(const Currency&) const = default;
};

struct Money {
  std::int64_t minor = 0;
  auto operator<=>(const Money&) const = default;
};

Money operator+(Money a, Money b);
Money operator-(Money a, Money b);
Money operator-(Money a);
Money operator*(Money a, std::int64_t times);
Money& operator+=(Money& a, Money b);
Money& operator-=(Money& a, Money b);

// A percentage in whole millionths: 8.25 % is 82,500. Applied once per total; half a minor unit rounds up.
struct Percent {
  std::int64_t ppm = 0;
  auto operator<=>(const Percent&) const = default;
};
Money share_of(Percent percent, Money total);

// The largest single amount any file may state: 10^12 minor units.
inline constexpr std::int64_t kLargestAmount = 1'000'000'000'000;

// Known currencies (an ISO 4217 subset); an unknown code is an error text that names the nearest known one.
tl::expected<Currency, std::string> find_currency(std::string_view code);

// "12.50", "3", "0.99": digits with at most `exponent` decimals, a point, no sign, no thousands marks.
tl::expected<Money, std::string> parse_money(std::string_view text, const Currency& currency);
// "8.25 %" or "8.25%"; at most four decimals. Only 0 may stand without its sign: 10 could be meant as a share.
tl::expected<Percent, std::string> parse_percent(std::string_view text);

std::string to_string(Money amount, const Currency& currency);  // "1234.50"
std::string to_text(Money amount, const Currency& currency);    // "1,234.50"
std::string to_string(Percent percent);                         // "8.25 %"

}  // namespace teetally
