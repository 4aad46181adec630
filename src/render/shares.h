#pragma once
// What each need got: the purchase's supplies and leftovers, gathered by need for the tables of an order.
#include <optional>
#include <vector>

#include "teetally/render.h"

namespace teetally {

struct NeedShare {
  int need = -1;
  std::int64_t bought = 0;  // supplied, with the leftovers of items that serve no earlier need
  std::vector<int> items;   // indices into OfferBook::items
};
// One per need of the takeoff, in its order. Leftovers of an item that serves several needs are counted once,
// with the first of them, so that the column adds up with what the order brings.
std::vector<NeedShare> shares_of(const OrderView& view);

// What is bought and not needed, ready to show.
struct LeftoverLine {
  const Catalog* catalog = nullptr;
  const Item* item = nullptr;
  bool by_length = false;
  std::int64_t amount = 0;
  std::optional<Money> worth;  // what it cost; nothing where no price is known
};
std::vector<LeftoverLine> leftovers_of(const OrderView& view);
// Those worth most first, those of no known price last.
std::vector<LeftoverLine> leftovers_by_worth(const OrderView& view);

}  // namespace teetally
