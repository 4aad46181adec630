#pragma once
// What the leftovers of a Purchase cost, so that a person sees which spares matter, and a quote can take them off. A
// leftover is worth its share, by amount, of all that was bought of its item. Packs cost what the order line says,
// before discount, shipping and tax. A bundle's price is shared among what it brings in proportion to what each costs
// loose at that supplier, by the pack that is cheapest for its size; where the supplier does not sell one of them
// loose, what came in the bundle has no price of its own.
#include <optional>
#include <vector>

#include "teetally/purchase.h"

namespace teetally {

// One per Purchase::leftovers, in their order, each rounded once, half a minor unit up. Nothing where no price is known
// for any of it; where only some of it has a price, the leftover is worth no more than that cost.
std::vector<std::optional<Money>> worth_of_leftovers(const OfferBook& book, const Purchase& purchase);

}  // namespace teetally
