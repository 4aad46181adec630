#pragma once
// A certificate says what was asked, which order was found, and why no order costs less; verify() believes none of
// it. It prices the order from the catalogs, tries every rule anew, and works out the lower bound itself from
// the cases and prices the certificate carries. Whatever these say, the bound found is true, because each case is
// bounded from the catalogs alone and splits leave nothing out. This stage knows neither solvers nor offers: what is
// taken on trust is the question, which needs there are and which items serve them. File form: docs/certificate.md.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/catalog.h"

namespace teetally {

struct StatedNeed {
  std::string id;
  std::int64_t amount = 0;  // pieces, or tenths of a millimetre
  // Tubing: pieces that must each come from one coil, what may be joined or cut anyhow, and coils that the site has.
  std::vector<std::int64_t> whole{};
  std::int64_t joined = 0;
  std::vector<std::int64_t> site{};
  bool operator==(const StatedNeed&) const = default;
};
struct StatedCondition {
  int system = -1;
  std::vector<int> families;  // any of these
  bool operator==(const StatedCondition&) const = default;
};
// An item serves a need where every condition holds. Suppliers are indices into OrderQuestion::suppliers, items into
// the catalog's items.
struct StatedServing {
  int need = -1;
  int supplier = -1, item = -1;
  std::vector<StatedCondition> conditions;
  bool operator==(const StatedServing&) const = default;
};
struct OrderQuestion {
  std::vector<std::string> suppliers;  // the catalogs' ids, all of them
  std::vector<StatedNeed> needs;
  std::vector<int> families;  // how many each tubing system has to choose from
  std::vector<StatedServing> servings;
  std::vector<std::string> only, avoid;
  std::optional<std::int64_t> most_suppliers;
  bool no_bundles = false;
  std::optional<std::string> take_bundle;
  bool operator==(const OrderQuestion&) const = default;
};

struct StatedChange {
  int content = -1;  // index into Bundle::contents
  int swap = -1;     // index into its swaps; -1: left out
  std::int64_t times = 0;
  Place place{};
};
struct StatedLine {
  int supplier = -1;
  int item = -1, pack = -1;  // or
  int bundle = -1;
  std::int64_t count = 0;
  std::vector<StatedChange> changes;
  Place place{};
};
struct StatedUse {
  int need = -1, supplier = -1, item = -1;
  std::int64_t amount = 0;
  Place place{};
};
// One coil, bought or at the site, and what is cut from it.
struct StatedCut {
  int need = -1;
  std::int64_t length = 0;
};
struct StatedCoil {
  int supplier = -1, item = -1;  // or
  int site = -1;                 // need whose site has it
  std::int64_t length = 0;
  std::vector<StatedCut> cuts{};
  Place place{};
};
struct StatedOrder {
  std::int64_t cost = 0;      // minor units
  std::vector<int> families;  // by system
  std::vector<StatedLine> lines;
  std::vector<StatedUse> uses;
  std::vector<StatedCoil> coils{};  // the cut list; may be left out
  Place place{};
};

// How a case prices things, in steps. Any numbers give a true bound; good ones a high one.
// What a minor unit of goods counts for, in orders with goods of `from` or more.
struct StatedRate {
  std::int64_t from = 0, rate = 0;
};
// What the needs pay for so many contents of a kind: for each the same, or by how many bundles are taken, from `first`
// on; below the first and beyond the last as there.
struct StatedShare {
  std::int64_t each = 0;
  std::int64_t first = 0;
  std::vector<std::int64_t> values{};
  std::int64_t of(std::int64_t count) const;
};
struct PriceSplit {
  std::vector<std::vector<StatedRate>> rates;    // by supplier: states of its order, from goods of 0 on
  std::vector<std::vector<StatedShare>> shares;  // by bundle, then by content: as it is, then each swap
  // By supplier and need, when not empty: what the need pays for the state of the order: for none, then for each of
  // `rates`.
  std::vector<std::vector<std::vector<std::int64_t>>> calls{};
  Place place{};
};

enum class Splits { family, goods, bundle, pack };
// Cases stand in a list: a split is followed by all of its lower side (below `at`), then by its upper side. Narrowing
// leaves out what its prices show to be too dear, and is followed by what is left.
struct StatedCase {
  int prices = -1;      // not a split: index into StatedBound::prices
  bool narrow = false;  // by these prices, and another case follows, else a case by itself
  Splits by = Splits::goods;
  int which = -1;       // system, supplier, bundle or pack (positions in Market)
  std::int64_t at = 0;  // the upper side starts here; of goods, 0 parts "no order" from "an order"
  Place place{};
};
struct StatedBound {
  std::int64_t at_least = 0;  // minor units
  std::int64_t steps = 1;     // in one minor unit
  std::vector<PriceSplit> prices;
  std::vector<StatedCase> cases;
  Place place{};
};

struct Certificate {
  OrderQuestion question;
  StatedOrder order;
  StatedBound bound;
  // SHA-256 of each catalog's file, by supplier; "-" for what is at hand. Not needed for any proof: it tells
  // whether catalogs are still those of the day.
  std::vector<std::string> contents{};
  Place contents_place{};
};

// Catalogs must be those the certificate names; they are put into its order.
struct CertificateFile {
  Certificate certificate;
  std::vector<const Catalog*> catalogs;  // by OrderQuestion::suppliers
};
std::optional<CertificateFile> read_certificate(const Source& source, const std::vector<Catalog>& catalogs,
                                                Diagnostics& diagnostics);
std::string certificate_text(const Certificate& certificate, const std::vector<const Catalog*>& catalogs);

struct Verified {
  Money cost;
  Money at_least;                // what the cases prove; never more than the cost
  bool proven = false;           // no order costs less
  std::size_t cases = 0;         // bounded, splits not counted
  std::size_t open = 0;          // of these, how many do not reach the cost
  bool cut_unchecked = false;    // tubing is bought, and the certificate has no cut list
  bool joins_unchecked = false;  // some tubing may be joined: its length is checked, couplings are not
};
// The bound alone, whatever order stands beside it.
Verified follow_cases(const Certificate& certificate, const std::vector<const Catalog*>& catalogs,
                      Diagnostics& diagnostics);
// Every false statement is an error: of the order, of its cost, of the cut list, of the bound.
Verified verify(const Certificate& certificate, const std::vector<const Catalog*>& catalogs, Diagnostics& diagnostics);

}  // namespace teetally
