#pragma once
// What the store keeps, and what a price list changed, as text, JSON documents and CSV.
#include "teetally/catalog/price_list.h"
#include "teetally/render.h"
#include "teetally/store/prices.h"
#include "teetally/store/quotes.h"
#include "teetally/store/stock.h"

namespace teetally {

// What recording catalogs did.
std::string recordings_text(const std::vector<Recording>& recordings, const Page& page);
Json recordings_document(const std::vector<Recording>& recordings);    // "teetally/recordings"
std::string recordings_csv(const std::vector<Recording>& recordings);  // a row per catalog

// What a price list changed in a catalog.
std::string price_list_text(const PriceListReport& report, const Page& page);
Json price_list_document(const PriceListReport& report);    // "teetally/price-list"
std::string price_list_csv(const PriceListReport& report);  // a row per sku that changed, came or went

// What a sku cost, period by period.
std::string price_history_text(const std::vector<PriceHistory>& histories, const Page& page);
Json price_history_document(const std::vector<PriceHistory>& histories, UnitSystem units);  // "teetally/price-history"
std::string price_history_csv(const std::vector<PriceHistory>& histories, UnitSystem units);  // a row per period

// The quotes that are kept, by number.
std::string quotes_text(const std::vector<QuoteStanding>& quotes, const Page& page);
Json quotes_document(const std::vector<QuoteStanding>& quotes);    // "teetally/quotes"
std::string quotes_csv(const std::vector<QuoteStanding>& quotes);  // a row per quote

// A quote's order then and now, for the one who does the work: it names suppliers and costs.
std::string quote_again_text(const CustomerCopy& copy, const Repriced& repriced, const Page& page);
Json quote_again_document(const CustomerCopy& copy, const Repriced& repriced);    // "teetally/quote-again"
std::string quote_again_csv(const CustomerCopy& copy, const Repriced& repriced);  // a row per line

// What changed from one revision to another, for the customer.
std::string quote_change_text(const QuoteChange& change, const Page& page);
Json quote_change_document(const QuoteChange& change);    // "teetally/quote-change"
std::string quote_change_csv(const QuoteChange& change);  // a row per section, then price, tax and total

// Parts on hand, and what was booked on them.
std::string stock_text(const std::vector<StockEntry>& entries, const Page& page);
Json stock_document(const std::vector<StockEntry>& entries, UnitSystem units);    // "teetally/stock"
std::string stock_csv(const std::vector<StockEntry>& entries, UnitSystem units);  // a row per part
std::string booked_text(const std::vector<StockBooked>& booked, const Page& page);
Json booked_document(const std::vector<StockBooked>& booked, UnitSystem units);    // "teetally/stock-changes"
std::string booked_csv(const std::vector<StockBooked>& booked, UnitSystem units);  // a row per change

}  // namespace teetally
