#pragma once
// An order around a bundle: the bundle is taken as if it lay at hand, and what is still lacking is bought as cheaply as
// can be. It is a place to start from where the bundle must be bought, seldom far from the best, and never a proof.
#include <optional>

#include "purchase/why_question.h"

namespace teetally {

// Lines, families and joins only: plan_of() and rank() tell whether it keeps the rules and what it costs.
std::optional<Purchase> order_around(const OfferBook& book, const BuyLimits& limits, const Offer& bundle,
                                     const Purchase& best);

}  // namespace teetally
