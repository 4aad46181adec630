#include "render/workbook.h"

namespace teetally {
namespace {

constexpr std::size_t kLongestSheetName = 31;  // letters; ECMA-376 leaves it open, programs do not

bool is_refused(char c) { return std::string_view("[]:*?/\\'").find(c) != std::string_view::npos; }

}  // namespace

Cell text_cell(std::string text, CellLook look) { return {Cell::Kind::text, std::move(text), 0, look}; }
Cell number_cell(double number, CellLook look) { return {Cell::Kind::number, {}, number, look}; }
Cell formula_cell(std::string formula, double result, CellLook look) {
  return {Cell::Kind::formula, std::move(formula), result, look};
}

std::string cell_name(std::size_t row, std::size_t column) {
  return static_cast<char>('A' + column) + std::to_string(row + 1);
}

std::string sheet_name(std::size_t number, const std::string& words) {
  std::string name = std::to_string(number) + " ";
  for (const char c : printable(words)) {
    if (name.size() == kLongestSheetName) break;
    name += is_refused(c) ? ' ' : c;
  }
  while (!is_valid_utf8(name) || name.back() == ' ') name.pop_back();
  return name;
}

double in_units(Money amount, const Currency& currency) {
  double per_unit = 1;
  for (int i = 0; i < currency.exponent; ++i) per_unit *= 10;
  return static_cast<double>(amount.minor) / per_unit;
}

double measured(bool by_length, std::int64_t amount, UnitSystem units) {
  if (!by_length) return static_cast<double>(amount);
  const std::int64_t unit = units == UnitSystem::us ? feet(1).tenths_mm : metres(1).tenths_mm;
  return static_cast<double>(amount) / static_cast<double>(unit);
}

std::string unit_words(bool by_length, UnitSystem units) {
  if (!by_length) return "pieces";
  return units == UnitSystem::us ? "ft" : "m";
}

std::vector<Cell> heading_row(const std::vector<std::string>& words) {
  std::vector<Cell> row;
  row.reserve(words.size());
  for (const std::string& word : words) row.push_back(text_cell(word, CellLook::heading));
  return row;
}

}  // namespace teetally
