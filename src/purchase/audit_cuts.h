#pragma once
// The cut list's part of the audit: every coil bought is listed once, cuts and remainders add up, every piece is cut
// whole or joined as it may be, and each join has its coupling. Orders and families must have been checked before.
#include "teetally/purchase.h"

namespace teetally {

std::vector<std::string> audit_cuts(const OfferBook& book, const Purchase& purchase);

}  // namespace teetally
