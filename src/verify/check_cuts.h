#pragma once
// Whether the coils of an order can be cut as its cut list says: no more coils than are bought or there, nothing longer
// than its coil, each cut for a need that the coil serves, and every piece of each need among the cuts. In whole tenths
// of a millimetre. Couplings where tubing is joined are not counted here.
#include "teetally/verify.h"

namespace teetally {

void check_stated_cuts(const Certificate& certificate, const std::vector<const Catalog*>& catalogs,
                       Diagnostics& diagnostics);

}  // namespace teetally
