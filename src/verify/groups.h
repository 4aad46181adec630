#pragma once
// Needs that share items, and what is on offer for them under the families and limits that a case leaves open.
#include <vector>

#include "teetally/verify/bound.h"

namespace teetally {

// `bought_from`: by supplier, whether the case has room for an order there. Nothing when some need is served by
// nothing.
std::optional<std::vector<CoverGroup>> cover_groups(const Market& market, const CaseSpans& spans,
                                                    const std::vector<bool>& bought_from);

}  // namespace teetally
