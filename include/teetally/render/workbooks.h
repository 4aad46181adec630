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
std::string quote_workbook(const CustomerCopy& copy);
std::string internal_quote_workbook(const Quote& quote);

}  // namespace teetally
