#pragma once
// The unit system a person writes in, so that answers come back in it.
#include "teetally/base.h"

namespace teetally {

// As units_written() finds; unreadable files answer US.
UnitSystem units_of_file(const Source& source);

}  // namespace teetally
