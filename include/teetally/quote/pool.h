#pragma once
// Many baskets bought together or apart, from the offers found for all of them: what each costs alone and what every
// group of a small pool costs, for teetally/quote/shares.h to share an order by.
#include <cstdint>
#include <optional>
#include <vector>

#include "teetally/offers.h"
#include "teetally/purchase.h"
#include "teetally/quote/shares.h"

namespace teetally {

// The pool's offers for so much of its needs only.
OfferBook book_for(const OfferBook& pool, const std::vector<Basket>& baskets, const std::vector<std::int64_t>& times);
// Each basket bought by itself, on so many threads; `limits.seconds` is for all of them together.
std::vector<Alone> buy_alone(const OfferBook& pool, const std::vector<Basket>& baskets, const BuyLimits& limits,
                             int threads);
// The cost of every group of these sharers (at most kMostGrouped), from purchases of their joint baskets.
std::optional<GroupCosts> buy_as_groups(const OfferBook& pool, const std::vector<Basket>& baskets,
                                        const std::vector<Sharer>& sharers, const BuyLimits& limits);

}  // namespace teetally
