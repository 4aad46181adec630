#include "teetally/base/money.h"

#include <boost/test/unit_test.hpp>
#include <limits>
#include <optional>
#include <random>
#include <stdexcept>

namespace teetally {
namespace {

__extension__ typedef __int128 Wide;

const Currency kDollar{"USD", 2};
const Currency kYen{"JPY", 0};
const Currency kDinar{"KWD", 3};

std::string error_of(std::string_view text, const Currency& currency = kDollar) {
  const auto amount = parse_money(text, currency);
  return amount ? "read as " + to_string(*amount, currency) : amount.error();
}

bool fits(Wide value) {
  return value >= std::numeric_limits<std::int64_t>::min() && value <= std::numeric_limits<std::int64_t>::max();
}

// The answer of a sum or product, or nothing when it says that it overflows.
template <typename Operation>
std::optional<std::int64_t> answer(Operation operation) {
  try {
    return operation().minor;
  } catch (const std::overflow_error&) {
    return std::nullopt;
  }
}

// Small, middling and extreme numbers in equal parts.
std::int64_t any_number(std::mt19937_64& random) {
  const std::uint64_t bits = random();
  const auto shift = static_cast<int>(random() % 64);
  return static_cast<std::int64_t>(bits) >> shift;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(money)

BOOST_AUTO_TEST_CASE(amounts_are_read_to_the_minor_unit) {
  BOOST_TEST(parse_money("12.50", kDollar)->minor == 1250);
  BOOST_TEST(parse_money(" 3 ", kDollar)->minor == 300);
  BOOST_TEST(parse_money("0.99", kDollar)->minor == 99);
  BOOST_TEST(parse_money("19.99", kDollar)->minor == 1999);
  BOOST_TEST(parse_money("4.35", kDollar)->minor == 435);
  BOOST_TEST(parse_money("1.5", kDollar)->minor == 150);
  BOOST_TEST(parse_money("150", kYen)->minor == 150);
  BOOST_TEST(parse_money("1.234", kDinar)->minor == 1234);
  BOOST_TEST(parse_money("10000000000.00", kDollar)->minor == kLargestAmount);
}

BOOST_AUTO_TEST_CASE(what_is_not_an_amount_says_why) {
  BOOST_TEST(error_of("3,20") == "'3,20' has a comma in it; use a point: 3.20");
  BOOST_TEST(error_of("1,234.50") == "'1,234.50' has a comma in it; write it without: 1234.50");
  BOOST_TEST(error_of("-3") == "'-3' is negative; expected an amount such as 12.50");
  BOOST_TEST(error_of("$3") == "'$3' is not an amount of money; expected digits such as 12.50, without a currency");
  BOOST_TEST(error_of("3 USD") ==
             "'3 USD' is not an amount of money; expected digits such as 12.50, without a currency");
  BOOST_TEST(error_of("") == "'' is not an amount of money; expected digits such as 12.50, without a currency");
  BOOST_TEST(error_of("0.999") == "'0.999' has 3 decimals, but USD has 2");
  BOOST_TEST(error_of("1.5", kYen) == "'1.5' has 1 decimal, but JPY has none");
  BOOST_TEST(error_of("1e9") == "'1e9' has an exponent; write the number out");
  BOOST_TEST(error_of("0x10") == "'0x10' is not a decimal number; write it with the digits 0 to 9");
  BOOST_TEST(error_of("012") == "'012' starts with a zero; write the number without it");
  BOOST_TEST(error_of("10000000000.01") == "'10000000000.01' is too large; the largest amount is 10,000,000,000.00");
  BOOST_TEST(error_of(".inf").find("is not an amount of money") != std::string::npos);
  BOOST_TEST(error_of("nan").find("is not an amount of money") != std::string::npos);
}

BOOST_AUTO_TEST_CASE(amounts_print_with_their_currency_s_decimals) {
  BOOST_TEST(to_string(Money{123450}, kDollar) == "1234.50");
  BOOST_TEST(to_text(Money{123450}, kDollar) == "1,234.50");
  BOOST_TEST(to_text(Money{5}, kDollar) == "0.05");
  BOOST_TEST(to_text(Money{-5}, kDollar) == "-0.05");
  BOOST_TEST(to_text(Money{-123456789}, kDollar) == "-1,234,567.89");
  BOOST_TEST(to_text(Money{1234567}, kYen) == "1,234,567");
  BOOST_TEST(to_text(Money{999}, kYen) == "999");
  BOOST_TEST(to_text(Money{1234567}, kDinar) == "1,234.567");
  BOOST_TEST(to_string(Money{std::numeric_limits<std::int64_t>::min()}, kDollar) == "-92233720368547758.08");
}

BOOST_AUTO_TEST_CASE(printed_amounts_read_back) {
  std::mt19937_64 random(4217);
  for (int i = 0; i < 5000; ++i) {
    const Money amount{static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(kLargestAmount))};
    for (const Currency& currency : {kDollar, kYen, kDinar}) {
      BOOST_REQUIRE(parse_money(to_string(amount, currency), currency).value() == amount);
    }
  }
}

BOOST_AUTO_TEST_CASE(arithmetic_agrees_with_wider_integers_or_says_that_it_overflows) {
  std::mt19937_64 random(128);
  int overflows = 0;
  for (int i = 0; i < 20000; ++i) {
    const Money a{any_number(random)};
    const Money b{any_number(random)};
    const Wide sum = static_cast<Wide>(a.minor) + b.minor;
    const Wide difference = static_cast<Wide>(a.minor) - b.minor;
    const Wide product = static_cast<Wide>(a.minor) * b.minor;
    const auto check = [&](std::optional<std::int64_t> found, Wide exact) {
      BOOST_REQUIRE(found.has_value() == fits(exact));
      if (found) BOOST_REQUIRE(*found == static_cast<std::int64_t>(exact));
      if (!found) ++overflows;
    };
    check(answer([&] { return a + b; }), sum);
    check(answer([&] { return a - b; }), difference);
    check(answer([&] { return a * b.minor; }), product);
    check(answer([&] { return -a; }), -static_cast<Wide>(a.minor));
    Money running = a;
    check(answer([&] { return running += b; }), sum);
    running = a;
    check(answer([&] { return running -= b; }), difference);
  }
  BOOST_TEST(overflows > 1000);
}

BOOST_AUTO_TEST_CASE(half_a_minor_unit_rounds_up) {
  BOOST_TEST(share_of(Percent{82500}, Money{10000}).minor == 825);
  BOOST_TEST(share_of(Percent{50000}, Money{10}).minor == 1);    // 0.5
  BOOST_TEST(share_of(Percent{50000}, Money{30}).minor == 2);    // 1.5
  BOOST_TEST(share_of(Percent{49999}, Money{10}).minor == 0);    // 0.49999
  BOOST_TEST(share_of(Percent{50000}, Money{-10}).minor == 0);   // -0.5 goes up too
  BOOST_TEST(share_of(Percent{50000}, Money{-30}).minor == -1);  // -1.5
  BOOST_TEST(share_of(Percent{1'000'000}, Money{kLargestAmount}).minor == kLargestAmount);
}

BOOST_AUTO_TEST_CASE(a_share_is_never_more_than_half_a_unit_off) {
  std::mt19937_64 random(825);
  for (int i = 0; i < 20000; ++i) {
    const Percent percent{static_cast<std::int64_t>(random() % 2'000'000)};
    const Money total{static_cast<std::int64_t>(random() % 2'000'000'000'000) - kLargestAmount};
    const Wide exact = static_cast<Wide>(percent.ppm) * total.minor;  // millionths
    const Wide off = static_cast<Wide>(share_of(percent, total).minor) * 1'000'000 - exact;
    BOOST_REQUIRE((off > -500'000 && off <= 500'000));
  }
}

BOOST_AUTO_TEST_CASE(percentages) {
  BOOST_TEST(parse_percent("8.25 %")->ppm == 82500);
  BOOST_TEST(parse_percent("8.25%")->ppm == 82500);
  BOOST_TEST(parse_percent("0")->ppm == 0);
  BOOST_TEST(parse_percent("0.0001 %")->ppm == 1);
  BOOST_TEST(to_string(Percent{82500}) == "8.25 %");
  BOOST_TEST(to_string(Percent{50000}) == "5 %");
  BOOST_TEST(to_string(Percent{1}) == "0.0001 %");
  BOOST_TEST(parse_percent("8,25 %").error() ==
             "'8,25' has a comma in it; use a point: 8.25; expected a percentage such as 8.25 %");
  BOOST_TEST(parse_percent("0.00001 %").error() == "'0.00001 %' has more than 4 decimals");
  BOOST_TEST(parse_percent("1001 %").error() == "'1001 %' is more than 1000 %");
  BOOST_TEST(!parse_percent("-1 %"));
  BOOST_TEST(!parse_percent("%"));
}

// 10 could be meant as ten in a hundred, 0.1 as a tenth or as one in a thousand.
BOOST_AUTO_TEST_CASE(a_percentage_has_its_sign) {
  BOOST_TEST(parse_percent("10").error() == "10 has no % sign; write 10 %");
  BOOST_TEST(parse_percent("0.1").error() ==
             "0.1 has no % sign; write 10 % if that share of the whole is meant, or 0.1 %");
  BOOST_TEST(parse_percent("1").error() == "1 has no % sign; write 100 % if that share of the whole is meant, or 1 %");
  BOOST_TEST(parse_percent("0.0825").error() ==
             "0.0825 has no % sign; write 8.25 % if that share of the whole is meant, or 0.0825 %");
  BOOST_TEST(parse_percent("0.0")->ppm == 0);
}

BOOST_AUTO_TEST_CASE(currencies) {
  // Decimals of the minor unit: ISO 4217, list one.
  BOOST_TEST(find_currency("USD")->exponent == 2);
  BOOST_TEST(find_currency("JPY")->exponent == 0);
  BOOST_TEST(find_currency("KWD")->exponent == 3);
  BOOST_TEST(find_currency("UDS").error() == "unknown currency 'UDS'; did you mean USD?");
  BOOST_TEST(find_currency("usd").error() == "unknown currency 'usd'; did you mean USD?");
  BOOST_TEST(find_currency("").error() == "unknown currency ''; expected a code such as USD or EUR");
}

BOOST_AUTO_TEST_SUITE_END()

}  // namespace teetally
