#pragma once
// An OfferBook becomes a Purchase: the cheapest order by total landed cost (goods - discounts + shipping +
// fees + tax), with its lower bound and what the proof rests on. Ties go to fewer suppliers, then fewer packs,
// then fewer spares. Infeasible is an answer: the needs that cannot be served together, and why.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "teetally/base.h"
#include "teetally/base/stopwatch.h"
#include "teetally/offers.h"

namespace teetally {

// What the user allows. Names are catalog ids and skus.
struct BuyLimits {
  std::vector<std::string> only_suppliers;  // empty: all
  std::vector<std::string> avoid_suppliers;
  std::optional<int> most_suppliers;
  bool no_bundles = false;
  std::optional<std::string> take_bundle;  // this bundle sku at least once
  double seconds = 60;                     // for the whole search
  StopFlag stop = nullptr;                 // once set, the search ends as if its time were up
  std::string engine = "exact";            // see engine_names()
};
std::vector<std::string> engine_names();
// Says which names in the limits no catalog of the book knows (purchase/unknown-supplier, unknown-bundle,
// unknown-engine). buy() itself treats an unknown supplier as one that sells nothing.
void check_limits(const OfferBook& book, const BuyLimits& limits, Diagnostics& diagnostics);

// An engine broke: a failure of the world, not of the user.
struct SolverFailure : WorldFailure {
  using WorldFailure::WorldFailure;
};

struct BundleChange {
  int content = -1;        // index into Bundle::contents
  int swap = -1;           // index into its swaps; -1: left out
  std::int64_t times = 0;  // in how many of the bundles bought
};

// One line of an order: packs of an item, or bundles with their changes.
struct OrderLine {
  int catalog = -1;
  int item = -1, pack = -1;  // indices into the catalog; -1 for bundles
  int bundle = -1;
  std::int64_t count = 0;  // packs or bundles
  std::vector<BundleChange> changes;
  Money goods;  // the line's price, changes and breaks included
};

struct SupplierOrder {
  int catalog = -1;
  std::vector<OrderLine> lines;
  OrderCost cost;
};

// What serves a need: `amount` of `item` (from packs and bundles together).
struct Supply {
  int need = -1;
  int item = -1;  // index into OfferBook::items
  std::int64_t amount = 0;
};

struct Leftover {
  int catalog = -1, item = -1;
  std::int64_t amount = 0;  // pieces, or tenths of a millimetre
};

// One cut: a piece of a need, or a part of it where the piece is joined or is a total.
struct CoilCut {
  int need = -1;
  int piece = -1;  // index into Need::pieces
  Length length;   // the piece as measured and its share of the allowance
  int part = 1, parts = 1;
};
// A coil with its cuts in cutting order. Length = cuts + left.
struct CutCoil {
  int catalog = -1, item = -1;  // bought; -1: the site has it
  Length length;
  std::vector<CoilCut> cuts;
  Length left;
  bool spare = false;  // long enough to be kept
};
// What joining tubing adds to the need of couplings, and for which piece.
struct JoinReason {
  int need = -1;                     // of couplings
  int tubing_need = -1, piece = -1;  // what is joined
  std::int64_t amount = 0;
};

struct Proof {
  Money cost;
  Money lower_bound;          // no order can cost less, as far as `rests_on` can be trusted
  bool proven = false;        // bound equals cost
  bool floating = false;      // the bound was reckoned in floating point: no papers call it proven
  bool ties_settled = false;  // no plan of equal cost has fewer suppliers, then packs, then spares
  std::string rests_on;       // "CBC 2.10.8 alone; order re-priced and re-checked in whole minor units"
  double seconds = 0;
  std::int64_t nodes = 0;
};

struct Shortfall {
  std::vector<int> needs;  // cannot be served together; without any one of them they could
  std::string why;
};

enum class Outcome { bought, infeasible, out_of_time };
std::string to_text(Outcome outcome);  // the word of the JSON forms

struct Purchase {
  Outcome outcome = Outcome::out_of_time;
  std::vector<SupplierOrder> orders;  // by catalog; only suppliers used
  std::vector<int> family_of_system;  // index into SystemFamilies::families, -1 where none is bought
  std::vector<Supply> supplies;
  std::vector<Leftover> leftovers;  // bought and not needed: the spares
  std::vector<CutCoil> coils;       // the cut list: every coil for needs whose pieces are known, by need
  std::vector<JoinReason> joins;    // couplings needed besides what the takeoff asks for
  Money total;
  Proof proof;
  std::vector<Shortfall> shortfalls;  // when infeasible: needs that nothing serves, each alone; else one set
};

// What a need asks for in all: its amount and the joins made.
std::int64_t needed_with_joins(const OfferBook& book, const Purchase& purchase, int need);

// Throws SolverFailure when an engine breaks (not when there is no answer).
Purchase buy(const OfferBook& book, const BuyLimits& limits);

// The independent checker: recomputes everything from the book's catalogs in integers and answers what is
// wrong, in words; empty when the purchase is feasible and costs what it says.
std::vector<std::string> audit(const OfferBook& book, const BuyLimits& limits, const Purchase& purchase);

Json to_json(const Purchase& purchase, const OfferBook& book);

}  // namespace teetally
