#include "catalog/fill_bundles.h"

#include <map>

namespace teetally {

namespace {

// Looking for the nearest sku takes time in proportion to the catalog; after this many mistakes in one file
// the person has the idea and the file is likely broken throughout.
constexpr int kMostSuggestions = 20;

struct SkuIndex {
  std::map<std::string, int> items;
  std::vector<std::string> known;
  int suggestions = 0;
};

// Packs' skus lead to their item too: people write whichever they see on the shelf.
SkuIndex index_of(const Catalog& catalog) {
  SkuIndex index;
  for (std::size_t i = 0; i < catalog.items.size(); ++i) {
    const Item& item = catalog.items[i];
    if (index.items.emplace(item.sku, static_cast<int>(i)).second) index.known.push_back(item.sku);
  }
  for (std::size_t i = 0; i < catalog.items.size(); ++i) {
    for (const Pack& pack : catalog.items[i].packs) index.items.emplace(pack.sku, static_cast<int>(i));
  }
  return index;
}

int find_item(SkuIndex& index, const SkuReference& wanted, Diagnostics& diagnostics) {
  if (const auto found = index.items.find(wanted.sku); found != index.items.end()) return found->second;
  Diagnostic& entry = diagnostics.error("catalog/unknown-sku", wanted.place,
                                        "no item of this catalog has the sku " + quoted(wanted.sku));
  if (index.suggestions++ < kMostSuggestions) {
    if (const auto near = nearest_word(wanted.sku, index.known)) entry.help = "did you mean " + quoted(*near) + "?";
  }
  return -1;
}

// False when it names a sku that is not there.
bool fill_bundle(RawBundle& raw, Catalog& catalog, SkuIndex& index, Diagnostics& diagnostics) {
  bool whole = true;
  for (RawContent& content : raw.contents) {
    BundleContent filled = content.content;
    if (content.own) {
      filled.item = static_cast<int>(catalog.items.size());
      catalog.items.push_back(std::move(*content.own));
    } else if (content.item) {
      filled.item = find_item(index, *content.item, diagnostics);
      whole = whole && filled.item >= 0;
    }
    for (const RawSwap& swap : content.swaps) {
      const int item = find_item(index, swap.item, diagnostics);
      if (item >= 0) filled.swaps.push_back({item, swap.extra});
      whole = whole && item >= 0;
    }
    if (filled.item >= 0) raw.bundle.contents.push_back(std::move(filled));
  }
  return whole;
}

}  // namespace

void fill_bundles(RawCatalog& raw, Diagnostics& diagnostics) {
  SkuIndex index = index_of(raw.catalog);
  for (RawBundle& bundle : raw.bundles) {
    if (!fill_bundle(bundle, raw.catalog, index, diagnostics)) raw.unsound.add(bundle.bundle.place);
    raw.catalog.bundles.push_back(std::move(bundle.bundle));
  }
}

}  // namespace teetally
