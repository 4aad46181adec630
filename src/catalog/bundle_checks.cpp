#include "catalog/catalog_checks.h"

namespace teetally {

namespace {

std::string name_of(const Bundle& bundle) { return "bundle " + quoted(printable(bundle.sku)); }

const Item& item_at(const Catalog& catalog, int index) { return catalog.items[static_cast<std::size_t>(index)]; }

void check_amount(const Bundle& bundle, const BundleContent& content, const KindType& kind, Diagnostics& diagnostics) {
  const bool has_length = content.length > Length{};
  if (kind.by_length ? (!has_length || content.count != 0) : (has_length || content.count == 0)) {
    diagnostics.error("catalog/length-or-count", content.place,
                      "a content of " + name_of(bundle) +
                          (kind.by_length ? " is tubing: it states a length and no count"
                                          : " is sold by the piece: it states a count and no length"));
  }
}

void check_swaps(const Catalog& catalog, const Bundle& bundle, const BundleContent& content, Diagnostics& diagnostics) {
  const Item& from = item_at(catalog, content.item);
  for (const Swap& swap : content.swaps) {
    const Item& to = item_at(catalog, swap.item);
    if (swap.item == content.item) {
      diagnostics.error("catalog/swap-for-itself", content.place,
                        name_of(bundle) + " swaps " + quoted(printable(from.sku)) + " for itself");
    } else if (to.part.kind != from.part.kind) {
      diagnostics.error("catalog/swap-of-another-kind", content.place,
                        name_of(bundle) + " swaps " + quoted(printable(from.sku)) + " (" + from.part.kind + ") for " +
                            quoted(printable(to.sku)) + " (" + to.part.kind + "), which is of another kind");
    }
  }
}

void check_credits(const Catalog& catalog, const Bundle& bundle, Diagnostics& diagnostics) {
  Money credits;
  for (const BundleContent& content : bundle.contents) credits += content.leave_out.value_or(Money{});
  if (credits <= bundle.price) return;
  diagnostics.error("catalog/credits-exceed-price", bundle.place,
                    name_of(bundle) + " costs " + to_text(bundle.price, catalog.currency) +
                        ", but leaving parts out gives back " + to_text(credits, catalog.currency) +
                        ": it would cost less than nothing");
}

}  // namespace

void check_bundles(const Catalog& catalog, const Vocabulary& vocabulary, Diagnostics& diagnostics) {
  for (const Bundle& bundle : catalog.bundles) {
    if (bundle.price == Money{}) {
      diagnostics.warning("catalog/price-zero", bundle.place, name_of(bundle) + " has a price of zero");
    }
    for (const BundleContent& content : bundle.contents) {
      const KindType* kind = vocabulary.find(item_at(catalog, content.item).part.kind);
      if (kind != nullptr) check_amount(bundle, content, *kind, diagnostics);
      check_swaps(catalog, bundle, content, diagnostics);
    }
    check_credits(catalog, bundle, diagnostics);
  }
}

}  // namespace teetally
