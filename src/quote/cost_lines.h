#pragma once
// The lines of a cost sheet, part by part.
#include "teetally/quote.h"

namespace teetally {

// What is ordered, the suppliers' terms (discount, shipping, fees, tax), and the surplus that is kept.
std::vector<CostLine> material_lines(const QuoteInput& input, std::vector<std::string>& notes);
// One line of an order as it stands among the costs.
CostLine ordered_cost_line(const Catalog& catalog, const OrderLine& line, UnitSystem units);
// Hours by the table, each line rounded to a hundredth of an hour once; only what is built in takes time, not
// waste and spares.
std::vector<CostLine> labour_lines(const QuoteInput& input, std::vector<std::string>& notes);
std::vector<CostLine> charge_lines(CostPart part, const std::vector<Charge>& charges);

Money sum_of(const std::vector<CostLine>& lines);

}  // namespace teetally
