#pragma once
// A SizedGarden becomes a Takeoff. Of the needs stage only this header knows gardens.
#include "teetally/base.h"
#include "teetally/hydraulics.h"
#include "teetally/needs.h"

namespace teetally {

// Every need with its reasons: what the design asks for, the practice's waste and spares, and what the site
// has already. An element that yields no part is an error.
Takeoff take_off(const SizedGarden& sized, const Practice& practice, const Vocabulary& vocabulary, UnitSystem units,
                 Diagnostics& diagnostics);

}  // namespace teetally
