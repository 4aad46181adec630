#pragma once
// How things fit: the inside and outside diameters of tubing, and what the ends of a fitting grip. A diameter
// always carries its unit, since the unit of the file's lengths is rarely the one diameters are printed in.
#include "catalog/reading.h"

namespace teetally {

// Reads `inside` and `outside` (tubing) and `grips` (fittings) into the item.
void read_fit(Fields& fields, Item& item, const Reading& reading);

}  // namespace teetally
