#pragma once
// Pages of a pooled order, as those of teetally/render/papers.h. `purchase` must be bought.
#include "teetally/render/papers.h"
#include "teetally/render/pool_papers.h"
#include "teetally/render/round.h"

namespace teetally {

// What a committee reads: what the pool saves, who saves what, what is left over.
std::string pool_page(const PoolResult& result, const std::vector<NextStep>& steps, UnitSystem units,
                      const OwnTemplates& own, Diagnostics& diagnostics);
// A sheet for each plot, with a label to cut out.
std::string picks_page(const PaperView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);
std::string packing_page(const PaperView& view, UnitSystem units, const OwnTemplates& own, Diagnostics& diagnostics);
// A sheet for each member, with how their shares come about.
std::string statements_page(const PaperView& view, const OwnTemplates& own, Diagnostics& diagnostics);
std::string round_page(const LedgerView& view, const OwnTemplates& own, Diagnostics& diagnostics);

}  // namespace teetally
