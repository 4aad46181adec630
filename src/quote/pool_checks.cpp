// What can be wrong with a pool's plots taken together.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "teetally/quote/pool.h"

namespace teetally {
namespace {

// False for a plot without a name of its own.
bool check_name(const Plot& plot, std::map<std::string, Place>& names, Diagnostics& found) {
  if (plot.name.empty()) {
    found.error("quote/no-name", plot.place, plot.is_shared ? "a shared part has no name" : "a plot has no name");
    return false;
  }
  const auto [first, is_new] = names.emplace(plot.name, plot.place);
  if (is_new) return true;
  found.error("quote/plot-twice", plot.place, fmt::format("two plots are called {}", quoted(plot.name)))
      .notes.push_back({"the first is here", first->second});
  return false;
}

void check_payers(const PoolFile& pool, const std::map<std::string, Place>& names, Diagnostics& diagnostics) {
  std::set<std::string> shared;
  for (const Plot& plot : pool.plots) {
    if (plot.is_shared) shared.insert(plot.name);
  }
  const auto is_plot = [&](const std::string& name) {
    return (names.contains(name) || pool.refused_names.contains(name)) && !shared.contains(name);
  };
  for (const Plot& plot : pool.plots) {
    std::set<std::string> payers;
    for (const std::string& payer : plot.paid_by) {
      if (!payers.insert(payer).second) {
        diagnostics
            .error("quote/payer-twice", plot.paid_by_place,
                   fmt::format("{} is paid by {} twice", quoted(plot.name), quoted(payer)))
            .help = "name each plot once: those who pay for a shared part pay the same";
      } else if (!is_plot(payer)) {
        diagnostics
            .error("quote/unknown-plot", plot.paid_by_place,
                   fmt::format("{} is paid by {}, and no plot is called that", quoted(plot.name), quoted(payer)))
            .help = "name plots of this pool; without 'paid by' all plots pay";
      }
    }
  }
}

}  // namespace

void check_currency(PoolFile& pool, const Currency& of_catalogs, Diagnostics& diagnostics) {
  if (pool.currency_place.known() && pool.currency.code != of_catalogs.code) {
    diagnostics
        .error("quote/currency-differs", pool.currency_place,
               fmt::format("the pool is in {} and the catalogs are in {}", pool.currency.code, of_catalogs.code))
        .help = "give catalogs of the pool's currency, or leave 'currency' out";
  }
  pool.currency = of_catalogs;
}

void check_pool(PoolFile& pool, BadPlots bad, Diagnostics& diagnostics) {
  std::map<std::string, Place> names;
  const auto refused = [&](const Plot& plot) {
    Diagnostics found;
    const bool sound = check_name(plot, names, found);
    report_plot(found, plot.is_shared ? BadPlots::stop : bad, diagnostics);
    return !sound;
  };
  const std::size_t before = pool.plots.size();
  pool.plots.erase(std::remove_if(pool.plots.begin(), pool.plots.end(), refused), pool.plots.end());
  pool.refused += static_cast<int>(before - pool.plots.size());
  check_payers(pool, names, diagnostics);
  const bool somebody = std::any_of(pool.plots.begin(), pool.plots.end(),
                                    [](const Plot& plot) { return plot.takes_part && !plot.is_shared; });
  if (somebody || diagnostics.has_errors()) return;
  diagnostics.error("quote/no-plots", Place{pool.source, 1, 1}, "no plot takes part in this pool").help =
      "name plots under 'plots', or a CSV file of them under 'members'";
}

}  // namespace teetally
