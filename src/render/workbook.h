#pragma once
// A workbook as plain values, and its bytes as XLSX. Text is never taken for a formula; formulas carry the result that
// was computed here, so that a program which does not calculate shows it too. The same workbook is the same bytes.
#include <string>
#include <vector>

#include "teetally/base.h"

namespace teetally {

enum class CellLook { plain, title, quiet, heading, money, amount, percent, sum_words, sum_money };

struct Cell {
  enum class Kind { empty, text, number, formula } kind = Kind::empty;
  std::string text;   // of a formula without '='
  double number = 0;  // of a formula: its result
  CellLook look = CellLook::plain;
};
Cell text_cell(std::string text, CellLook look = CellLook::plain);
Cell number_cell(double number, CellLook look);
Cell formula_cell(std::string formula, double result, CellLook look);

struct Sheet {
  std::string name;
  std::vector<double> widths;  // of columns, in letters
  std::vector<std::vector<Cell>> rows;
};
struct Workbook {
  std::string title, author;
  std::string made_on;  // ISO date; the only time in the file
  int decimals = 2;     // of money
  std::vector<Sheet> sheets;
};
std::string workbook_bytes(const Workbook& workbook);

std::string cell_name(std::size_t row, std::size_t column);  // (0, 0) is "A1"
// A sheet's name that every program accepts, unlike any other with another number: "2 Tarnwick Drip and Thread".
std::string sheet_name(std::size_t number, const std::string& words);
double in_units(Money amount, const Currency& currency);
// Lengths in feet or metres, so that they can be calculated on; pieces as they are.
double measured(bool by_length, std::int64_t amount, UnitSystem units);
std::string unit_words(bool by_length, UnitSystem units);  // "ft", "m", "pieces"
std::vector<Cell> heading_row(const std::vector<std::string>& words);

}  // namespace teetally
