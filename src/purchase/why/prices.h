#pragma once
// At which price of one offer the answer turns, in whole minor units (see Turn). Steps in the ordering terms make the
// cheapest cost rise and fall as a price moves, so a turn is never read off two points: every price between it and
// today's is decided, by an answer there or by the most that an order's cost can change on the way.
#include "purchase/why/answers.h"

namespace teetally {

// Of a bundle that the best order does not have; `with` is the cheapest order that has it.
Turn turn_of_losing(Answers& answers, const Offer& bundle, const Purchase& with, bool close_gaps);
// Of an offer that the best order has; `without` is the cheapest order that does not. Nothing when it is not settled.
std::optional<Turn> turn_of_chosen(Answers& answers, const Offer& offer, const Purchase& without);

}  // namespace teetally
