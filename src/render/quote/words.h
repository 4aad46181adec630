#pragma once
// Words and figures of a quote that text and page share.
#include <string>
#include <vector>

#include "teetally/render/quote.h"

namespace teetally {

// "Scope: ..." where there is any; further lines of it below.
std::string fact_text(const std::string& name, const std::string& text, const Page& page);

std::string count_text(const CostLine& line);  // packs, or hours to the hundredth

// How the price is made from the costs, in order; what is nothing is left out.
struct PriceStep {
  std::string what;
  Money amount;
};
std::vector<PriceStep> price_steps(const Quote& quote);

}  // namespace teetally
