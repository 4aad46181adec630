#include "teetally/base/csv.h"

#include "render/compare/ways.h"

namespace teetally {

std::string compare_csv(const CompareView& view, UnitSystem units) {
  std::string out = csv_row({"way", "what", "supplier", "sku", "outcome", "total", "dearer by", "proven", "lower bound",
                             "currency", "verdict", "changes", "order", "left over", "missing"});
  if (view.comparison.best.outcome != Outcome::bought) return out;
  const Currency& currency = view.book.catalogs.front()->currency;
  for (const Way& way : ways_of(view)) {
    const Purchase& purchase = *way.purchase;
    const bool bought = purchase.outcome == Outcome::bought;
    const Catalog* catalog =
        way.catalog < 0 ? nullptr : view.book.catalogs[static_cast<std::size_t>(way.catalog)].get();
    const auto joined = [](const std::vector<std::string>& words) {
      std::string text;
      for (const std::string& word : words) text += (text.empty() ? "" : "; ") + word;
      return text;
    };
    out += csv_row({way.kind, way.what, catalog != nullptr ? catalog->id : "",
                    way.verdict != nullptr ? catalog->bundles[static_cast<std::size_t>(way.verdict->bundle)].sku : "",
                    to_text(purchase.outcome), bought ? to_string(purchase.total, currency) : "",
                    bought ? to_string(purchase.total - view.comparison.best.total, currency) : "",
                    is_settled(purchase) && !purchase.proof.floating ? "yes" : "no",
                    bought ? to_string(purchase.proof.lower_bound, currency) : "", currency.code,
                    way.verdict != nullptr ? verdict_phrase(view, *way.verdict) : "",
                    joined(change_words(view, way, units)), joined(added_words(view, way, units)),
                    joined(left_words(view, way, units)), missing_phrase(view.book, purchase)});
  }
  return out;
}

}  // namespace teetally
