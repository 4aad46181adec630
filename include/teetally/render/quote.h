#pragma once
// Quotes as text, JSON documents and CSV. What takes a CustomerCopy cannot show a cost, a supplier or a profit:
// there is none in it.
#include "teetally/quote.h"
#include "teetally/render.h"

namespace teetally {

std::string quote_text(const CustomerCopy& copy, const Page& page);
Json quote_document(const CustomerCopy& copy);    // "teetally/quote"
std::string quote_csv(const CustomerCopy& copy);  // a row per section
// The same with the cost sheet, for the one who does the work.
std::string internal_quote_text(const Quote& quote, const Page& page);
Json internal_quote_document(const Quote& quote);    // "teetally/internal-quote"
std::string internal_quote_csv(const Quote& quote);  // a row per cost line
std::string to_text(CostPart part);

}  // namespace teetally
