#pragma once
// Catalog files (YAML, one supplier each) become Catalogs: identity, ordering terms, items with packs, and
// bundles. Catalogs are untrusted input: everything is checked, nothing is believed. A catalog that has any
// error is not used. File format: docs/catalog-file.md.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"

namespace teetally {

// From this many packs on, each pack costs this much: every pack of the line (all units) or only the packs
// from here on (incremental).
struct PriceBreak {
  std::int64_t from = 1;
  Money price;  // of one pack
  Place place{};
};
enum class BreakRule { all_units, incremental };

// One way an item is sold. For kinds cut by length a pack is a coil: `length` is set and `count` is 1.
struct Pack {
  std::string sku;                 // the item's own sku unless the pack has one
  std::int64_t count = 1;          // pieces in the pack
  Length length;                   // length of the coil; zero for kinds sold by the piece
  std::vector<PriceBreak> prices;  // first from 1, rising `from`, never empty
  BreakRule rule = BreakRule::all_units;
  std::optional<std::int64_t> stock;  // packs the supplier has
  std::int64_t multiple = 1;          // packs are sold in multiples of this
  std::int64_t minimum = 1;           // fewest packs if any
  Place place;
};

// What one end of a fitting holds: tubing whose inside (barbs) or outside (compression) diameter lies in one
// of the ranges. A nominal size says nothing about fit.
struct Grip {
  enum class By { inside, outside };
  By by = By::inside;
  struct Range {
    Diameter low, high;
  };
  std::vector<Range> ranges;
};

struct Item {
  std::string sku;
  std::string name;
  PartSpec part;
  std::optional<Diameter> inside, outside;  // tubing only
  std::vector<Grip> grips;                  // one per end of the kind, or a single one for all ends alike
  std::vector<Pack> packs;                  // may be empty: sold in bundles only
  Place place;
};

struct Swap {
  int item = -1;  // index into Catalog::items
  Money extra;    // per unit swapped (per coil for tubing); may be zero
};
struct BundleContent {
  int item = -1;                   // index into Catalog::items (a kind-only content gets an item of its own)
  std::int64_t count = 0;          // pieces; zero for tubing
  Length length;                   // tubing, in one coil
  std::optional<Money> leave_out;  // credit for leaving this content out as a whole
  std::vector<Swap> swaps;         // the whole content may become this item instead
  Place place;
};
struct Bundle {
  std::string sku;
  std::string name;
  Money price;
  std::optional<std::int64_t> stock;  // how many may be bought: the supplier's stock or limit per order
  std::vector<BundleContent> contents;
  Place place;
};

struct ShippingStep {
  Money from;  // order value (goods less discount) from which this fee holds
  Money fee;
  Place place{};
};
struct DiscountStep {
  Money from;  // goods value from which this discount holds, for the whole order
  Percent percent;
  Place place{};
};
struct OrderingTerms {
  std::vector<ShippingStep> shipping;  // rising `from`, first from zero; empty: no shipping charge
  std::optional<Money> minimum_order;  // order value below which the supplier does not deliver
  std::optional<Money> small_order_below;
  Money small_order_fee;                // charged when the order value is below that
  std::vector<DiscountStep> discounts;  // rising `from`
  Percent tax;                          // on order value, and on shipping and fee when taxed
  bool tax_on_shipping = false;
  Place place{};
};

struct Catalog {
  std::string id;  // short, unique among the catalogs of a run
  std::string name;
  Currency currency;
  std::optional<std::string> valid_from, valid_until;  // ISO dates, checked
  OrderingTerms terms;
  std::vector<Item> items;
  std::vector<Bundle> bundles;
  std::string notice;  // shown with results ("invented supplier, invented prices")
  Source source;
};

// Reads and checks one file. With any error the answer is nullopt and the diagnostics say why.
std::optional<Catalog> read_catalog(const Source& source, const Vocabulary& vocabulary, Diagnostics& diagnostics);
// Files as given, directories searched for *.yaml (not below), sorted by name; refuses two suppliers of one
// id, different currencies, and no catalog at all. `today` is an ISO date for validity; empty: not checked.
std::vector<Catalog> read_catalogs(const std::vector<std::string>& paths, const Vocabulary& vocabulary,
                                   const std::string& today, Diagnostics& diagnostics);
// Parts on hand (docs/catalog-file.md, "Parts on hand") as a catalog that sells them at no charge while stock
// lasts; its id is kOnHandId, which no supplier may have.
inline constexpr const char* kOnHandId = "on-hand";
std::optional<Catalog> read_on_hand(const Source& source, const Vocabulary& vocabulary, const Currency& currency,
                                    Diagnostics& diagnostics);

// What an order costs: the one place where prices, breaks and terms become money. Goods less the discount of
// the highest step that goods reach is the order value; shipping, the small-order fee and the minimum order look
// at the order value; tax is taken once, on the order value and, where the terms say so, on shipping and fee.
Money price_of(const Pack& pack, std::int64_t packs);
struct OrderCost {
  Money goods, discount, shipping, small_order_fee, tax, total;
};
OrderCost landed_cost(const OrderingTerms& terms, Money goods);

Json to_json(const Catalog& catalog);

}  // namespace teetally
