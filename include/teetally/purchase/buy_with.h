#pragma once
// buy() for those who ask again and again: with what other answers have shown already.
#include <optional>
#include <vector>

#include "teetally/purchase.h"

namespace teetally {

struct Beforehand {
  std::vector<const Purchase*> orders;  // for the same catalogs; they need not keep the rules here
  Money at_least;                       // no order costs less, as far as the proofs it comes from can be trusted
  // Only orders that cost less are wanted, and any of them will do; "infeasible" then says there is none.
  std::optional<Money> below;
  bool name_shortfalls = true;  // when nothing can be bought, find out which needs cannot be served together
};
struct FoundPurchase {
  Purchase purchase;
  bool searched = false;  // by an engine; otherwise an order at hand costs as little as any can
  // No order costs less whose tubing is long enough in all, whether the pieces can be cut from it or not. It holds for
  // every takeoff that wants at least as much of each need. Zero when nothing is known.
  Money least_uncut;
};
FoundPurchase buy_with(const OfferBook& book, const BuyLimits& limits, const Beforehand& known);

}  // namespace teetally
