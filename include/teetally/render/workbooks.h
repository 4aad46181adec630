#pragma once
// Orders and quotes as XLSX workbooks that calculate: change a count of packs or a price, and totals, discount,
// shipping, fee and tax follow by the suppliers' own terms. What takes a CustomerCopy cannot hold a cost, a supplier or
// a profit.
#include <string>

#include "teetally/quote.h"
#include "teetally/render.h"

namespace teetally {

// `made_on` is an ISO date and the only time in the file. `purchase` must be bought.
std::string order_workbook(const OrderView& view, UnitSystem units, const std::string& made_on);
// Every way to buy with what its total is made of and what it takes; `comparison.best` must be bought.
std::string comparison_workbook(const CompareView& view, UnitSystem units, const std::string& made_on);
// A sheet with every coil and its cuts; what is left of a coil follows from them.
std::string cut_list_workbook(const OrderView& view, UnitSystem units, const std::string& made_on);
std::string quote_workbook(const CustomerCopy& copy);
std::string internal_quote_workbook(const Quote& quote);

}  // namespace teetally
