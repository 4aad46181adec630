#pragma once
// Tiny random purchases in which thresholds dominate: free shipping just out of reach, price breaks just above
// the need, minimum orders, discounts, taxes that round badly. Same seed, same book.
#include "teetally/purchase.h"
#include "unit/purchase/hand_made_book.h"

namespace teetally::test {

struct RandomPurchase {
  HandMadeBook made;
  BuyLimits limits;
};
RandomPurchase random_purchase(unsigned seed);

}  // namespace teetally::test
