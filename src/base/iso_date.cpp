#include "teetally/base/iso_date.h"

#include <algorithm>
#include <chrono>

#include "teetally/base/text.h"

namespace teetally {
namespace {

int digits(std::string_view text) {
  int value = 0;
  for (const char c : text) value = value * 10 + (c - '0');
  return value;
}

bool all_digits(std::string_view text) { return std::all_of(text.begin(), text.end(), is_digit); }

}  // namespace

bool is_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const std::string_view year = text.substr(0, 4), month = text.substr(5, 2), day = text.substr(8, 2);
  if (!all_digits(year) || !all_digits(month) || !all_digits(day)) return false;
  const std::chrono::year_month_day date{std::chrono::year{digits(year)},
                                         std::chrono::month{static_cast<unsigned>(digits(month))},
                                         std::chrono::day{static_cast<unsigned>(digits(day))}};
  return date.ok();
}

}  // namespace teetally
