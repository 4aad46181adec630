#pragma once
// Ordering terms that ask of an order no more than the true terms ask of it, or of the same order with up to so much
// more in goods. What cannot be had under them cannot be had at any price in a range either.
#include "teetally/catalog.h"

namespace teetally {

// `dearest`: no order of more goods matters.
OrderingTerms eased(const OrderingTerms& terms, Money by, Money dearest);

}  // namespace teetally
