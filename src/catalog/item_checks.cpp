#include <algorithm>

#include "catalog/catalog_checks.h"

namespace teetally {

namespace {

std::string name_of(const Item& item) { return "item " + quoted(printable(item.sku)); }

void check_diameters(const Item& item, const KindType& kind, Diagnostics& diagnostics) {
  if (!is_tubing(kind)) {
    if (item.inside || item.outside) {
      diagnostics
          .error("catalog/diameters-without-tubing", item.place,
                 name_of(item) + " states 'inside' or 'outside', but " + quoted(kind.name) + " is not tubing")
          .help = "what a fitting holds goes to 'grips'";
    }
    return;
  }
  if (!item.inside || !item.outside) {
    diagnostics
        .error("catalog/tubing-without-diameters", item.place,
               name_of(item) + " is tubing and must state its inside and outside diameters")
        .help =
        "a nominal size such as 1/2 in names several tubings that do not fit one another; look for the "
        "figures printed on the tubing";
  } else if (*item.outside <= *item.inside) {
    diagnostics.error("catalog/diameters-swapped", item.place,
                      name_of(item) + ": the outside diameter must be larger than the inside one");
  }
}

void check_ranges(const Item& item, Diagnostics& diagnostics) {
  for (const Grip& grip : item.grips) {
    for (const Grip::Range& range : grip.ranges) {
      if (range.low <= range.high) continue;
      diagnostics.error("catalog/range-backwards", item.place,
                        name_of(item) + ": a range of diameters goes from the smaller to the larger");
    }
  }
}

void check_grips(const Item& item, const KindType& kind, Diagnostics& diagnostics) {
  const std::size_t ends = kind.ends.size();
  if (ends == 0 && !item.grips.empty()) {
    diagnostics.error("catalog/grips-without-ends", item.place,
                      name_of(item) + " states grips, but " + quoted(kind.name) + " holds no tubing");
  } else if (ends > 0 && item.grips.empty()) {
    diagnostics
        .error("catalog/fitting-without-grips", item.place, name_of(item) + " must state which tubing its ends grip")
        .help = "write grips: {inside: 0.600 in} for barbs, grips: {outside: 0.700 in} for compression ends";
  } else if (item.grips.size() > 1 && item.grips.size() != ends) {
    diagnostics
        .error("catalog/wrong-number-of-grips", item.place,
               name_of(item) + " states " + counted(static_cast<std::int64_t>(item.grips.size()), "grip") + "; " +
                   quoted(kind.name) + " has " + counted(static_cast<std::int64_t>(ends), "end"))
        .help = "state one for all ends alike, or one for each of: " + listed(kind.ends);
  }
  check_ranges(item, diagnostics);
}

void check_attributes(const Item& item, const KindType& kind, Diagnostics& diagnostics) {
  std::vector<std::string> missing, meanings;
  for (const AttributeType& type : kind.attributes) {
    if (item.part.attributes.count(type.name)) continue;
    missing.push_back(quoted(type.name));
    meanings.push_back(quoted(type.name) + (type.about.empty() ? "" : " (" + type.about + ")"));
  }
  if (missing.empty()) return;
  diagnostics
      .warning("catalog/missing-attribute", item.place,
               name_of(item) + " does not state " + listed(missing) + " of " + quoted(kind.name) +
                   "; it cannot serve a need that asks for it")
      .help = "add to its part: " + listed(meanings);
}

void check_breaks(const Item& item, const Pack& pack, Diagnostics& diagnostics) {
  for (std::size_t i = 1; i < pack.prices.size(); ++i) {
    const PriceBreak& now = pack.prices[i];
    const PriceBreak& before = pack.prices[i - 1];
    if (now.from <= before.from) {
      diagnostics.error("catalog/steps-not-rising", now.place,
                        "price breaks of " + name_of(item) + ": 'from' must be higher than in the step before");
    } else if (now.price > before.price) {
      diagnostics.warning(
          "catalog/break-raises-price", now.place,
          "a price break of " + name_of(item) + " makes it dearer from " + std::to_string(now.from) + " packs on");
    }
  }
}

// The fewest packs that may be bought: at least the minimum, in whole multiples.
std::int64_t fewest_packs(const Pack& pack) {
  return (pack.minimum + pack.multiple - 1) / pack.multiple * pack.multiple;
}

void check_pack(const Item& item, const Pack& pack, bool free_goods, Diagnostics& diagnostics) {
  const bool free =
      std::any_of(pack.prices.begin(), pack.prices.end(), [](const PriceBreak& step) { return step.price == Money{}; });
  if (free && !free_goods) {
    diagnostics.warning("catalog/price-zero", pack.place, name_of(item) + " has a price of zero");
  }
  if (pack.stock && *pack.stock > 0 && fewest_packs(pack) > *pack.stock) {
    diagnostics.warning("catalog/stock-below-minimum", pack.place,
                        "a pack of " + name_of(item) + " cannot be bought: the stock is " +
                            std::to_string(*pack.stock) + ", the fewest that may be ordered is " +
                            std::to_string(fewest_packs(pack)));
  }
  check_breaks(item, pack, diagnostics);
}

void check_coils(const Item& item, const KindType& kind, Diagnostics& diagnostics) {
  for (const Pack& pack : item.packs) {
    if (!kind.by_length || pack.length > Length{}) continue;
    diagnostics.error("catalog/coil-length", pack.place, "a coil of " + name_of(item) + " must be longer than nothing");
  }
}

std::vector<bool> items_in_bundles(const Catalog& catalog) {
  std::vector<bool> in_bundle(catalog.items.size(), false);
  for (const Bundle& bundle : catalog.bundles) {
    for (const BundleContent& content : bundle.contents) {
      in_bundle[static_cast<std::size_t>(content.item)] = true;
      for (const Swap& swap : content.swaps) in_bundle[static_cast<std::size_t>(swap.item)] = true;
    }
  }
  return in_bundle;
}

}  // namespace

bool is_tubing(const KindType& kind) {
  return kind.by_length && std::any_of(kind.attributes.begin(), kind.attributes.end(),
                                       [](const AttributeType& type) { return type.name == "size"; });
}

void check_items(const Catalog& catalog, const Vocabulary& vocabulary, bool free_goods, Diagnostics& diagnostics) {
  const std::vector<bool> in_bundle = items_in_bundles(catalog);
  for (std::size_t i = 0; i < catalog.items.size(); ++i) {
    const Item& item = catalog.items[i];
    const KindType* kind = vocabulary.find(item.part.kind);
    if (kind == nullptr) continue;  // complained about when read
    check_diameters(item, *kind, diagnostics);
    check_grips(item, *kind, diagnostics);
    check_attributes(item, *kind, diagnostics);
    check_coils(item, *kind, diagnostics);
    for (const Pack& pack : item.packs) check_pack(item, pack, free_goods, diagnostics);
    if (item.packs.empty() && !in_bundle[i]) {
      diagnostics.warning("catalog/item-not-sold", item.place,
                          name_of(item) + " has no packs and is in no bundle, so it cannot be bought");
    }
  }
}

}  // namespace teetally
