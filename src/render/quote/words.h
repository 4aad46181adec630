#pragma once
// Words and figures of a quote that text and page share.
#include <string>
#include <vector>

#include "teetally/render/quote.h"

namespace teetally {

std::string count_text(const CostLine& line);  // packs, or hours to the hundredth

// How the price is made from the costs, in order; what is nothing is left out.
struct PriceStep {
  std::string what;
  Money amount;
};
std::vector<PriceStep> price_steps(const Quote& quote);

}  // namespace teetally
