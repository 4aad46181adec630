#pragma once
// What else could have been bought, and by how much dearer: a Purchase and its OfferBook become a Comparison. Each
// answer is the cheapest order under one wish more, found by buying anew and audited like the purchase itself; none
// is read off a solver's duals. An answer that could not be settled says so: its Purchase is then not proven, or out
// of time, and a Difference or a Turn keeps its two ends apart.
#include <cstdint>
#include <optional>
#include <vector>

#include "teetally/purchase.h"

namespace teetally {

struct CompareWishes {
  bool break_evens = true;  // of bundles: up to three more questions each
  bool close_gaps = false;  // of those: up to four questions more, some of them slow
  bool lines = false;       // of the packs bought: two or three questions each
  bool needs = false;       // one more, one fewer, and the spares: two or three questions each
  int plans = 0;            // really different orders wanted, the cheapest among them
  Length step{3048};        // "one" of a need that is cut by length
  double seconds = 60;      // for all questions together
};

// How much more than the cheapest order another costs: between these two, which are equal when both are proven.
struct Difference {
  Money least;
  std::optional<Money> most;  // nothing: no such order is known
};

// Where the answer turns as one price moves, everything else as it is. Changes are from today's price.
//
// Of a bundle that is not in the cheapest order: `by` (negative) is the highest change known at which some order with
// it is cheaper than any without; at every change from `sure` to nothing it is not. Exact when sure = by + 1, or when
// it would not be cheaper even for nothing: then `by` is absent and `sure` is minus the price. A `sure` of 1 says that
// nothing is known.
//
// Of a pack or bundle that is in it: at the change `by` (not negative) some order without it costs no more; at every
// change below `sure` the cheapest orders all have it. Exact when the two are equal, or when there is no order
// without it: then `by` is absent.
struct Turn {
  std::optional<Money> by;
  Money sure;
  bool exact = false;
};

struct SupplierAnswer {
  int catalog = -1;
  Purchase purchase;
};
struct BundleVerdict {
  int catalog = -1, bundle = -1;
  bool useful = false;  // holds, or may hold by a swap, something that is needed
  bool chosen = false;  // in the cheapest order
  Purchase with;        // the cheapest order that has it at least once; not asked for when not useful
  Purchase without;     // the cheapest order that does not have it
  std::optional<Turn> turn;
};
struct LineVerdict {
  int catalog = -1, item = -1, pack = -1;
  Purchase without;  // the cheapest order without this pack
  std::optional<Turn> turn;
};
// Costs against the cheapest order of today's needs.
struct NeedVerdict {
  int need = -1;
  std::int64_t step = 1;                // pieces or tenths of a millimetre
  std::optional<Difference> one_more;   // how much dearer; nothing when so many cannot be had
  std::optional<Difference> one_fewer;  // how much cheaper; nothing when there is no smaller need
  std::int64_t spares = 0;              // of the reasons of class spare
  std::optional<Difference> spares_cost;
};

// Why the really different orders end where they do.
enum class PlansEnd {
  not_asked,
  enough,       // as many as were wanted
  no_other,     // shown: every other order uses all that one of these does
  out_of_time,  // a question stayed open, so there may be one more, or a cheaper one
  many_alike,   // many questions on, all answers were like those before
};

struct Comparison {
  Purchase best;
  std::vector<SupplierAnswer> alone;    // from one supplier each
  std::vector<Purchase> front;          // from at most 1, 2, ... suppliers, up to as many as the best has
  std::optional<Purchase> loose;        // no bundles; nothing when a bundle is wanted
  std::vector<SupplierAnswer> without;  // without each supplier that the best uses
  std::vector<BundleVerdict> bundles;   // by catalog
  std::vector<LineVerdict> lines;       // the packs that the best buys and pays for
  std::vector<NeedVerdict> needs;
  std::optional<Difference> all_spares;  // what the spares of all needs cost together
  std::vector<Purchase> plans;           // cheapest first; see below
  PlansEnd plans_end = PlansEnd::not_asked;
  std::vector<std::string> rests_on;  // what the proofs of the answers rest on, each once
  int questions = 0, solved = 0;      // the others were answered by what was known already
};

// `best` is what buy(book, limits) answered; nothing is asked unless it was bought.
//
// Two orders are really different when each does without some supplier or bundle that the other uses. `plans` holds
// the cheapest order; then, again and again, the cheapest that does so with all before it.
Comparison compare(const OfferBook& book, const BuyLimits& limits, const Purchase& best, const CompareWishes& wishes);

// Settled: proven, or shown to be impossible.
bool is_settled(const Purchase& purchase);
Difference difference(const Purchase& dearer, const Purchase& cheaper);

}  // namespace teetally
