#include <algorithm>

#include "teetally/purchase.h"

namespace teetally {
namespace {

void check_known(const std::string& slug, const std::string& what, const std::string& name,
                 const std::vector<std::string>& known, Diagnostics& diagnostics) {
  if (std::find(known.begin(), known.end(), name) != known.end()) return;
  Diagnostic& diagnostic = diagnostics.error(slug, {}, "no " + what + " is called " + quoted(name));
  const std::optional<std::string> nearest = nearest_word(name, known);
  if (nearest) diagnostic.help = "did you mean " + quoted(*nearest) + "? ";
  diagnostic.help +=
      known.empty() ? "there is no " + what : (known.size() == 1 ? "there is " : "there are ") + listed(known);
}

}  // namespace

void check_limits(const OfferBook& book, const BuyLimits& limits, Diagnostics& diagnostics) {
  std::vector<std::string> suppliers, bundles;
  for (const std::shared_ptr<const Catalog>& catalog : book.catalogs) {
    suppliers.push_back(catalog->id);
    for (const Bundle& bundle : catalog->bundles) bundles.push_back(bundle.sku);
  }
  for (const std::string& name : limits.only_suppliers) {
    check_known("purchase/unknown-supplier", "supplier", name, suppliers, diagnostics);
  }
  for (const std::string& name : limits.avoid_suppliers) {
    check_known("purchase/unknown-supplier", "supplier", name, suppliers, diagnostics);
  }
  if (limits.take_bundle) {
    check_known("purchase/unknown-bundle", "bundle", *limits.take_bundle, bundles, diagnostics);
  }
  if (limits.take_bundle && limits.no_bundles) {
    diagnostics
        .error("purchase/contradicting-limits", {},
               "bundle " + quoted(*limits.take_bundle) + " is wanted, and no bundles are allowed")
        .help = "drop one of the two wishes";
  }
  check_known("purchase/unknown-engine", "engine", limits.engine, engine_names(), diagnostics);
}

}  // namespace teetally
