#pragma once
// The order a certificate states, tried against the catalogs and the question.
#include "teetally/verify.h"

namespace teetally {

// Every rule broken, and every sum that is wrong, is an error at its place.
void check_stated_order(const Certificate& certificate, const std::vector<const Catalog*>& catalogs,
                        Diagnostics& diagnostics);

}  // namespace teetally
