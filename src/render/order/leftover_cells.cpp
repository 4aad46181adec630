#include "render/order/leftover_cells.h"

namespace teetally {

std::vector<Cell> leftover_heading() { return heading_row({"Sku", "What", "Amount", "Unit", "Its cost"}); }

std::vector<Cell> leftover_cells(const LeftoverLine& left, UnitSystem units) {
  return {text_cell(left.item->sku), text_cell(left.item->name),
          number_cell(measured(left.by_length, left.amount, units), CellLook::amount),
          text_cell(unit_words(left.by_length, units)),
          left.worth ? number_cell(in_units(*left.worth, left.catalog->currency), CellLook::money) : Cell{}};
}

}  // namespace teetally
