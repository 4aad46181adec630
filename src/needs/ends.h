#pragma once
// Which nominal size each end of a part grips. An end named X takes its size from the attribute "X size" when
// the kind has one, and from "size" otherwise; tubing has one size of its own.
#include <string>
#include <vector>

#include "teetally/base.h"

namespace teetally {

// One entry per end of the kind (for tubing, a single one); empty when the kind grips no tubing. An entry is
// "" when the part does not say its size, or says several.
std::vector<std::string> sizes_of_ends(const PartSpec& part, const KindType& kind);

}  // namespace teetally
