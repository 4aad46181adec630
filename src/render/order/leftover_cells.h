#pragma once
// What is left over of an order, as a row of a workbook: sku, what, amount, unit, its cost.
#include "render/shares.h"
#include "render/workbook.h"

namespace teetally {

std::vector<Cell> leftover_heading();
std::vector<Cell> leftover_cells(const LeftoverLine& left, UnitSystem units);

}  // namespace teetally
