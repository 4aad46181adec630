#pragma once
// How much of a coil can be of use. Pieces that may not be joined must each come from one coil, so from a coil of
// 100 only 80 can be used where all pieces are 40 long.
#include "teetally/verify/bound.h"

namespace teetally {

// Fills in what packs and bundles bring at most, and what each need asks of bought coils at least.
void note_useful(Market& market);

}  // namespace teetally
