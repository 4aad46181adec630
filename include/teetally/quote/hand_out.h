#pragma once
// A pooled order that has arrived, handed out: which piece, pack and coil goes to which plot, in which sequence plots
// are packed, and what stays in stock. Every piece bought is handed out or in stock, once.
#include <cstdint>
#include <vector>

#include "teetally/quote/pool.h"

namespace teetally {

// One pack or bundle as it stands on the table; `number` counts those of one sku from 1.
struct PackThere {
  int catalog = -1;
  int item = -1, pack = -1;  // as in an OrderLine; or
  int bundle = -1;
  std::int64_t number = 0;
};

struct Pick {
  int catalog = -1, item = -1;
  std::int64_t amount = 0;    // pieces, or tenths of a millimetre
  int pack = -1;              // index into HandOut::packs; or
  int coil = -1, cut = -1;    // indices into Purchase::coils and its cuts
  int need = -1, piece = -1;  // what a cut is for: indices into the pool's needs and their pieces
};

struct PlotPicks {
  int line = -1;  // index into PoolResult::plots, and from their number on into PoolResult::shared
  std::vector<Pick> picks;
};

struct HandOut {
  std::vector<PackThere> packs;     // in the order in which they are opened
  std::vector<PlotPicks> sequence;  // plots in packing order
  std::vector<Pick> stock;          // what stays with the pool
  int most_open = 0;                // packs that are open at once in this order; coils are cut beforehand
  int most_open_as_listed = 0;      // the same if plots were packed as the file lists them
};

// Leftovers as the pool file wants. Whoever is packed, the pieces of one item come out of its packs one after another.
HandOut hand_out(const PoolResult& result);

// Names the pieces of the pool's needs after their plots ("plot A1: bed 'salads' row 2"), for the cut list.
void name_pieces(PoolResult& result);

// How far a supplier's next step is: more plots like these would reach it.
struct NextStep {
  int catalog = -1;
  enum class Kind { discount, shipping, price_break } kind = Kind::discount;
  int item = -1, pack = -1;  // price breaks
  Money missing;             // goods; or
  std::int64_t packs = 0;    // price breaks: packs missing
  std::int64_t plots = 0;    // plots that would bring it, buying here as those of this pool do on average
  Percent discount;          // what is reached
  Money fee, price;          // shipping then; price of a pack then
};
// Nearest first; none that takes more plots than there are.
std::vector<NextStep> next_steps_of(const PoolResult& result);

}  // namespace teetally
