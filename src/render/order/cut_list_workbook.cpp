// The cut list as a workbook: every coil, its cuts in order, and what is left of it as a formula.
#include <fmt/format.h>

#include "render/order/cut_list.h"
#include "render/workbook.h"
#include "teetally/render/workbooks.h"

namespace teetally {
namespace {

constexpr std::size_t kLength = 3;

void add_coil(Sheet& sheet, const OrderView& view, const CutCoil& coil, std::size_t number, UnitSystem units) {
  const CoilWords words = words_of(view, coil);
  const auto length = [&](Length l) { return number_cell(measured(true, l.tenths_mm, units), CellLook::amount); };
  const std::size_t top = sheet.rows.size();
  sheet.rows.push_back({text_cell(fmt::format("Coil {}", number), CellLook::sum_words), text_cell(words.supplier),
                        text_cell(words.sku), length(coil.length), text_cell(""), text_cell(words.what)});
  int cuts = 0;
  for (const CoilCut& cut : coil.cuts) {
    sheet.rows.push_back({text_cell(fmt::format("cut {}", ++cuts)), text_cell(""), text_cell(""), length(cut.length),
                          text_cell(view.book.takeoff.needs[static_cast<std::size_t>(cut.need)].id),
                          text_cell(place_words(view, cut))});
  }
  const std::size_t row = sheet.rows.size();
  const std::string taken =
      cuts == 0 ? "" : fmt::format("-SUM({}:{})", cell_name(top + 1, kLength), cell_name(row - 1, kLength));
  sheet.rows.push_back(
      {text_cell("left", CellLook::quiet), text_cell(""), text_cell(""),
       formula_cell(cell_name(top, kLength) + taken, measured(true, coil.left.tenths_mm, units), CellLook::amount),
       text_cell(""), text_cell(left_words(coil), CellLook::quiet)});
}

}  // namespace

std::string cut_list_workbook(const OrderView& view, UnitSystem units, const std::string& made_on) {
  const std::string name = view.book.takeoff.name.empty() ? "Parts" : view.book.takeoff.name;
  Sheet sheet{"Cuts", {12, 18, 16, 12, 8, 70}, {{text_cell(name, CellLook::title)}}};
  sheet.rows.push_back({text_cell(cut_list_summary(view), CellLook::quiet)});
  sheet.rows.push_back(heading_row(
      {"Coil, cut", "Supplier", "Sku", "Length, " + unit_words(true, units), "Need", "What it is, where it goes"}));
  std::size_t number = 0;
  for (const CutCoil& coil : view.purchase.coils) add_coil(sheet, view, coil, ++number, units);
  sheet.rows.push_back({text_cell("Measure on site before you cut: these lengths are estimates.", CellLook::quiet)});
  return workbook_bytes({name, "", made_on, view.book.catalogs.front()->currency.exponent, {std::move(sheet)}});
}

}  // namespace teetally
