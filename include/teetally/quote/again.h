#pragma once
// An order in terms that outlive the catalogs it was made from, the same order at the prices of other catalogs, and
// what changed for the customer from one revision of a quote to another.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/quote.h"

namespace teetally {

// In so many bundles, a content was left out or replaced. Skus are those of the items.
struct OrderedChange {
  std::string content, swap;  // no swap: left out
  std::int64_t times = 0;
};
struct OrderedLine {
  std::string sku, what;
  bool bundle = false;
  std::int64_t pieces = 1;  // in a pack
  Length length{};          // of a coil
  std::int64_t count = 0;   // packs or bundles
  std::vector<OrderedChange> changes;
  Money goods;
};
struct OrderedFrom {
  std::string supplier, name;  // id and full name
  std::vector<OrderedLine> lines;
  OrderCost cost;
};
// What is on hand is not ordered and is left out.
std::vector<OrderedFrom> ordered_from(const OfferBook& book, const Purchase& purchase, UnitSystem units);

// A line then and now; without `now` it cannot be had as it was, and `why` says so. `why` also tells of stock, least
// number and multiple that the line no longer keeps to.
struct RepricedLine {
  OrderedLine line;
  std::optional<Money> now;
  std::string why;
};
struct RepricedOrder {
  std::string supplier, name;
  std::vector<RepricedLine> lines;
  OrderCost then;
  std::optional<OrderCost> now;  // where every line has a price
  std::string why;               // of the whole order: no catalog of the supplier, less than the least order
};
struct Repriced {
  std::vector<RepricedOrder> orders;
  Money then;
  std::optional<Money> now;  // where every order has a cost
};
// The same lines and counts, looked up by sku in the catalogs; nothing is chosen anew.
Repriced reprice(const std::vector<OrderedFrom>& orders, const std::vector<Catalog>& catalogs);

// Between two copies of one quote. Made from copies alone, it has no cost in it either.
struct ChangedPart {
  std::string what, before, after;  // amounts; empty: not supplied
};
struct ChangedAmount {
  std::string what;
  Money before, after;
};
struct ChangedOption {
  std::string name;
  std::optional<Money> before, after;  // totals; nothing where it was or is no option
};
struct QuoteChange {
  CustomerCopy after;  // whose name, customer and so on hold
  std::int64_t revision_before = 0;
  std::vector<ChangedPart> parts;       // those that differ
  std::vector<ChangedAmount> sections;  // all of them; their sums are the prices
  Money price_before, tax_before, total_before;
  std::vector<ChangedOption> options;  // all of both
  std::vector<std::string> exclusions_gone, exclusions_new;
};
QuoteChange change_between(const CustomerCopy& before, const CustomerCopy& after);

}  // namespace teetally
