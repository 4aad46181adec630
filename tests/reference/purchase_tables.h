#pragma once
// Purchase problems kept as plain tables of numbers beside the tests; lines that start with # are comments.
#include "teetally/purchase.h"
#include "unit/purchase/hand_made_book.h"

namespace teetally::test {

// One of each item, a price per item and shop (0: not sold), shipping free from a limit.
HandMadeBook book_from_price_table(const std::string& file);
// Packs and bundles; each file says its form.
HandMadeBook book_from_offer_table(const std::string& file);

}  // namespace teetally::test
