#pragma once
// A RunCard as something to read: when to open which zone and for how long, on one page.
#include <string>

#include "teetally/hydraulics/run_card.h"
#include "teetally/render.h"

namespace teetally {

std::string run_card_text(const RunCard& card, const Page& page);
Json run_card_document(const RunCard& card, UnitSystem units);    // "teetally/run-card"
std::string run_card_csv(const RunCard& card, UnitSystem units);  // a row per zone

}  // namespace teetally
