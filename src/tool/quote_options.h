#pragma once
// The options of a job, bought as the quote is.
#include <vector>

#include "teetally/quote.h"
#include "tool/pipeline.h"

namespace teetally {

std::optional<std::int64_t> beds_of(const Bought& bought);  // of designs

// One for each option that is not the quoted design, in their order. What cannot be bought, or will not work, is an
// error (quote/option-without-order).
std::vector<Bought> buy_options(Session& session, const Job& job);

}  // namespace teetally
