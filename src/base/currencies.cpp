#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "teetally/base/money.h"
#include "teetally/base/words.h"

namespace teetally {
namespace {

struct Entry {
  std::string_view code;
  int exponent;
};

// ISO 4217 list one, the currencies of countries where gardens are likely to be bought for.
constexpr Entry kCurrencies[] = {
    {"AED", 2}, {"ARS", 2}, {"AUD", 2}, {"BGN", 2}, {"BHD", 3}, {"BRL", 2}, {"CAD", 2}, {"CHF", 2}, {"CLP", 0},
    {"CNY", 2}, {"COP", 2}, {"CZK", 2}, {"DKK", 2}, {"EGP", 2}, {"EUR", 2}, {"GBP", 2}, {"HKD", 2}, {"HUF", 2},
    {"IDR", 2}, {"ILS", 2}, {"INR", 2}, {"ISK", 0}, {"JOD", 3}, {"JPY", 0}, {"KES", 2}, {"KRW", 0}, {"KWD", 3},
    {"MAD", 2}, {"MXN", 2}, {"MYR", 2}, {"NGN", 2}, {"NOK", 2}, {"NZD", 2}, {"OMR", 3}, {"PEN", 2}, {"PHP", 2},
    {"PLN", 2}, {"QAR", 2}, {"RON", 2}, {"RSD", 2}, {"SAR", 2}, {"SEK", 2}, {"SGD", 2}, {"THB", 2}, {"TND", 3},
    {"TRY", 2}, {"TWD", 2}, {"UAH", 2}, {"USD", 2}, {"UYU", 2}, {"VND", 0}, {"ZAR", 2}};

}  // namespace

tl::expected<Currency, std::string> find_currency(std::string_view code) {
  std::vector<std::string> codes;
  for (const Entry& entry : kCurrencies) {
    if (entry.code == code) return Currency{std::string(code), entry.exponent};
    codes.emplace_back(entry.code);
  }
  const auto near = nearest_word(code, codes);
  const std::string hint =
      near ? fmt::format("; did you mean {}?", *near) : std::string("; expected a code such as USD or EUR");
  return tl::unexpected(fmt::format("unknown currency {}{}", quoted(code), hint));
}

}  // namespace teetally
