#pragma once
// A pooled order's way from open to received: who left after the freeze, what did not come or came as something else,
// and what everybody then owes. File form: docs/pool-file.md, "Rounds". Sums stay exact to the minor unit.
#include <optional>
#include <string>
#include <vector>

#include "teetally/quote/hand_out.h"

namespace teetally {

enum class RoundState { open, frozen, ordered, received };
std::string to_text(RoundState state);

// Packs that did not come, and what the supplier pays back for them; or, for substitutes, what came instead costs
// more (or, below zero, less) than was ordered.
struct Delivery {
  std::string supplier, sku;
  std::int64_t packs = 0;  // 0: a substitute for all that were ordered
  Money change;            // of what the supplier is paid: below zero for a refund
  bool substituted = false;
  Place place;
};

struct Round {
  std::string name;  // "Spring 2026"; empty: none is given
  RoundState state = RoundState::open;
  std::optional<Money> total;  // what the order cost when it was frozen
  Place total_place;
  std::vector<std::string> left, left_late;  // plots that dropped out after the freeze; after the order was sent
  Place left_place, late_place;
  std::vector<Delivery> deliveries;
  Place place;
};
std::optional<Round> read_round(const Source& source, const Currency& currency, Diagnostics& diagnostics);
// Holds a round to its order: the total as frozen, plots that are in it and leave once, nothing before its time.
void check_round(const Round& round, const PoolResult& result, Diagnostics& diagnostics);
// Packs that are in the order as it was sent, no more of them than it has, and no more money back than they cost.
void check_deliveries(const Round& round, const PoolResult& now, Diagnostics& diagnostics);

// What a plot still owes besides, or gets back, and why.
struct RoundLine {
  Money share;       // at the freeze
  Money leaving;     // what others' leaving, or its own, changes
  Money deliveries;  // refunds and substitutes
  bool has_left = false;
  std::int64_t pieces_short = 0;  // pieces it does not get
  Money owes() const { return share + leaving + deliveries; }
};
struct Settled {
  std::vector<RoundLine> lines;  // as PoolResult::plots
  Money total;                   // what the suppliers get; the lines add up to it
  Money saved;                   // by buying without those who left before the order was sent
  std::vector<int> not_bought;   // shared parts that only those pay for: index into PoolFile::plots
};

// The pool without the plots that left before the order was sent, and without shared parts that only those pay for,
// bought anew; the pool itself where nobody left.
PoolResult without_left(const PoolResult& result, const Round& round, const BuyLimits& limits);
// `now` is the pool without those who left, `out` how it is handed out. Whoever leaves owes what their leaving does not
// save; nobody else pays more because of it. A refund goes to those who get less, in proportion to the pieces they
// miss, once the pool's stock of that item is used up; where the stock covers it all, and for substitutes, to those who
// use the item.
Settled settle(const PoolResult& result, const PoolResult& now, const HandOut& out, const Round& round);

}  // namespace teetally
