#pragma once
// The unit system a person writes in, so that answers come back in it.
#include "teetally/base.h"

namespace teetally {

// Metric when the file's own `units` state a metric unit, else US; unreadable files answer US.
UnitSystem units_of_file(const Source& source);

}  // namespace teetally
