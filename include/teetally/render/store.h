#pragma once
// What the store keeps, as text, JSON documents and CSV.
#include "teetally/render.h"
#include "teetally/store/prices.h"

namespace teetally {

// What recording catalogs did.
std::string recordings_text(const std::vector<Recording>& recordings, const Page& page);
Json recordings_document(const std::vector<Recording>& recordings);    // "teetally/recordings"
std::string recordings_csv(const std::vector<Recording>& recordings);  // a row per catalog

// What a sku cost, period by period.
std::string price_history_text(const std::vector<PriceHistory>& histories, const Page& page);
Json price_history_document(const std::vector<PriceHistory>& histories, UnitSystem units);  // "teetally/price-history"
std::string price_history_csv(const std::vector<PriceHistory>& histories, UnitSystem units);  // a row per period

}  // namespace teetally
